//! One wish, for instance of a coach: 15:20 before the 16:00 practice. Granted or refused with every reason, and what
//! would be better: after the last practice, ending early enough, another day.

use jiff::ToSpan;

use super::audit::{Breach, Session, breaches};
use super::plan::allowance;
use super::prefer::{points, total};
use super::slots::stretch;
use super::{Known, Week};
use crate::time::{Span, days_between};

/// A wish.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Request {
    /// Index of the group.
    pub group: usize,
    /// Index of the place.
    pub place: usize,
    /// When.
    pub span: Span,
}

/// What kind of offer it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum OfferKind {
    /// The same day, after the last practice.
    AfterLast,
    /// The same day, ending early enough before the water.
    EndsEarlyEnough,
    /// The same day, another allowed time.
    SameDay,
    /// Another day.
    OtherDay,
}

impl OfferKind {
    /// The word in JSON.
    pub const fn word(self) -> &'static str {
        match self {
            OfferKind::AfterLast => "after-last",
            OfferKind::EndsEarlyEnough => "ends-early-enough",
            OfferKind::SameDay => "same-day",
            OfferKind::OtherDay => "other-day",
        }
    }
}

/// Something better.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Offer {
    /// Why it is offered.
    pub kind: OfferKind,
    /// Index of the place.
    pub place: usize,
    /// When.
    pub span: Span,
    /// Points, as in a plan.
    pub points: i64,
}

/// What is said to a wish.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Reply {
    /// What it would break; empty when it is granted.
    pub breaks: Vec<Breach>,
    /// Something better, best first; at most three. Empty when it is granted.
    pub offers: Vec<Offer>,
    /// The known session that the wish would move, by index; none when it would be one more.
    pub instead_of: Option<usize>,
    /// The known session that an offer would move.
    pub offers_instead_of: Option<usize>,
    /// True when a practitioner may overrule it by name and with a reason.
    pub can_be_overruled: bool,
    /// True when 5 to 8 easy minutes without times may stand there instead.
    pub activation: bool,
}

impl Reply {
    /// True when nothing speaks against it.
    pub fn is_granted(&self) -> bool {
        self.breaks.is_empty()
    }
}

/// Offers made.
const OFFERS: usize = 3;
/// Minutes between the starts that are tried within deck hours.
const STEP: i64 = 30;
/// Deck hours that are looked through for offers.
const MOST_WINDOWS: usize = 100;

/// Answers a wish beside the sessions people already know. One of the group on the same day is taken to be the one that
/// is to move.
pub fn answer(week: &Week, request: &Request) -> Reply {
    let same_day = |known: &Known| known.group == request.group && known.span.day() == request.span.day();
    answer_instead(week, request, week.known.iter().position(same_day))
}

/// The same when it is said which session is to move; none when it would be one more.
pub fn answer_instead(week: &Week, request: &Request, instead_of: Option<usize>) -> Reply {
    let breaks = broken_by(week, &others(week, instead_of), request);
    let mut reply = Reply {
        breaks,
        offers: Vec::new(),
        instead_of,
        offers_instead_of: None,
        can_be_overruled: false,
        activation: false,
    };
    if !reply.breaks.is_empty() {
        reply.offers_instead_of = instead_of.or_else(|| nearest_of_full_week(week, request));
        reply.offers = offers(week, &others(week, reply.offers_instead_of), request);
        reply.can_be_overruled = reply.breaks.iter().all(|breach| breach.requirement.kind.can_be_overruled());
        reply.activation = reply.can_be_overruled && week.settings.activation_allowed;
    }
    reply
}

/// Where a group has all the sessions it wants, an offer moves the nearest of them: it is not given one more.
fn nearest_of_full_week(week: &Week, request: &Request) -> Option<usize> {
    let own: Vec<usize> = (0..week.known.len()).filter(|at| week.known[*at].group == request.group).collect();
    let is_full = usize::from(allowance(week, request.group).wanted) <= own.len();
    let far = |at: &usize| week.known[*at].span.start.minutes_until(request.span.start).abs();
    own.into_iter().filter(|_| is_full).min_by_key(far)
}

/// Known sessions but for the one that would move.
pub fn others(week: &Week, instead_of: Option<usize>) -> Vec<Session> {
    let stays = |at: &usize| Some(*at) != instead_of;
    (0..week.known.len()).filter(stays).map(|at| Session::from(&week.known[at])).collect()
}

/// What the request alone adds to what is broken.
fn broken_by(week: &Week, others: &[Session], request: &Request) -> Vec<Breach> {
    let mut with = others.to_vec();
    with.push(Session { group: request.group, place: request.place, span: request.span, overruled: None });
    let own = with.len() - 1;
    breaches(week, &with).into_iter().filter(|breach| breach.sessions.contains(&own)).collect()
}

fn offers(week: &Week, others: &[Session], request: &Request) -> Vec<Offer> {
    let mut found: Vec<Offer> = candidates(week, request)
        .into_iter()
        .filter(|(_, place, span)| {
            let wish = Request { group: request.group, place: *place, span: *span };
            *span != request.span && broken_by(week, others, &wish).is_empty()
        })
        .map(|(kind, place, span)| Offer {
            kind,
            place,
            span,
            points: total(&points(week, request.group, span)),
        })
        .collect();
    let far = |offer: &Offer| {
        (
            days_between(request.span.day(), offer.span.day()).abs(),
            offer.span.start.minutes_until(request.span.start).abs(),
        )
    };
    found.sort_by_key(|offer| (offer.kind, offer.place != request.place, -offer.points, far(offer)));
    // One of each kind and day first, so that three offers are three different ways out.
    let mut chosen: Vec<Offer> = Vec::new();
    for offer in &found {
        let is_new =
            chosen.iter().all(|other| other.kind != offer.kind || other.span.day() != offer.span.day());
        if is_new && chosen.len() < OFFERS {
            chosen.push(offer.clone());
        }
    }
    for offer in found {
        if chosen.len() < OFFERS && chosen.iter().all(|other| other.span != offer.span) {
            chosen.push(offer);
        }
    }
    chosen.sort_by_key(|offer| (offer.kind, far(offer)));
    chosen
}

fn candidates(week: &Week, request: &Request) -> Vec<(OfferKind, usize, Span)> {
    let minutes = request.span.minutes();
    let day = request.span.day();
    let mut all = Vec::new();
    let water = week.water_of(request.group);
    let kind_of = |span: Span| {
        if span.day() != day {
            return OfferKind::OtherDay;
        }
        let mut on_day =
            water.iter().filter(|(_, water)| water.span.day() == day).map(|(_, water)| water.span).peekable();
        let has_water = on_day.peek().is_some();
        let on_day: Vec<Span> = on_day.collect();
        if has_water && on_day.iter().all(|water| 0 <= water.minutes_to(span)) {
            OfferKind::AfterLast
        } else if on_day.iter().any(|water| 0 <= span.minutes_to(*water)) {
            OfferKind::EndsEarlyEnough
        } else {
            OfferKind::SameDay
        }
    };
    let places: Vec<usize> = (0..week.places.len()).collect();
    for (_, practice) in &water {
        for place in &places {
            if let Some(span) = stretch(week, practice.span.end.civil(), minutes) {
                all.push((kind_of(span), *place, span));
            }
            let latest =
                practice.span.start.civil().saturating_sub((week.settings.gap_minutes() + minutes).minutes());
            if let Some(span) = stretch(week, latest, minutes) {
                all.push((kind_of(span), *place, span));
            }
        }
    }
    for slot in week.slots.iter().filter(|slot| slot.in_window) {
        if let Some(span) =
            stretch(week, slot.span.start.civil(), minutes).filter(|span| slot.span.covers(*span))
        {
            all.push((kind_of(span), slot.place, span));
        }
    }
    for window in week.windows.iter().take(MOST_WINDOWS) {
        let mut start = window.span.start.civil();
        while let Some(span) = stretch(week, start, minutes).filter(|span| window.span.covers(*span)) {
            all.push((kind_of(span), window.place, span));
            start = start.saturating_add(STEP.minutes());
        }
    }
    all.retain(|(_, _, span)| week.first <= span.day() && span.day() <= week.last);
    all
}

/// The wish as a session that people know, once it is granted or overruled.
pub fn granted(request: &Request, overruled: Option<super::Override>) -> Known {
    Known { group: request.group, place: request.place, span: request.span, overruled }
}
