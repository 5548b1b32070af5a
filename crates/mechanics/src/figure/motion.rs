//! One repetition of an exercise as poses, with everything that touches kept where it touches.
//!
//! Keyframe angles are what an author wishes; contacts are law. Each frame begins at the angles between start and end,
//! and is then moved as little as the contacts need, so feet do not slip and hands do not leave the floor.

use quantity::Length;

use super::joints::{Figure, Place};
use super::part::Part;
use super::pose::Pose;
use super::settle::{Demand, Wish, nudged, settle};
use crate::body::Body;

/// Something flat to touch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Surface {
    /// The floor, at height nought.
    Floor,
    /// A wall in front, so far from where the pelvis begins.
    Wall(Length),
    /// The top of a bench, box or roll of this height.
    Bench(Length),
}

/// What a part touches.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Touches {
    /// A surface.
    Surface(Surface),
    /// Another part of the same body.
    Part(Part),
}

/// A part that touches something through the whole movement.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Contact {
    /// Which part.
    pub part: Part,
    /// What it touches.
    pub touches: Touches,
    /// Between skin and surface, such as a ball; nothing for a plain touch.
    pub gap: Length,
    /// Whether it may glide along the surface.
    pub slides: bool,
}

/// One repetition.
#[derive(Debug, Clone, PartialEq)]
pub struct Motion {
    /// Where it begins.
    pub start: Pose,
    /// Where it turns.
    pub end: Pose,
    /// What touches.
    pub contacts: Vec<Contact>,
    /// Radius of a circle that the part touching the wall is led round, instead of moving from start to end; below
    /// nought it goes round to the left.
    pub circle: Option<Length>,
}

/// The body at one moment.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Frame {
    /// Its angles.
    pub pose: Pose,
    /// Its joints.
    pub figure: Figure,
}

impl Motion {
    /// The same with left and right changed.
    pub fn mirrored(&self) -> Self {
        let contact = |contact: &Contact| Contact {
            part: contact.part.mirrored(),
            touches: match contact.touches {
                Touches::Part(part) => Touches::Part(part.mirrored()),
                surface @ Touches::Surface(_) => surface,
            },
            ..*contact
        };
        Self {
            start: self.start.mirrored(),
            end: self.end.mirrored(),
            contacts: self.contacts.iter().map(contact).collect(),
            circle: self.circle.map(|radius| Length::from_metres(-radius.metres())),
        }
    }

    /// Poses a body at parts of the way, 0 at the start and 1 at the turn (for a circle, once round).
    ///
    /// Contacts that do not slide stay where they were at the start. A contact that this body cannot make is left as
    /// near as it gets; [`Motion::miss`] says by how much.
    pub fn frames(&self, body: &Body, parts: &[f64]) -> Vec<Frame> {
        let first = settle(body, &self.start, &self.start, &self.demands(body, None, 0.0));
        let mut before = first;
        let mut wished = self.start;
        let origin = Figure::of(body, &first);
        parts
            .iter()
            .map(|part| {
                let part = if part.is_finite() { part.clamp(0.0, 1.0) } else { 0.0 };
                let wish =
                    if self.circle.is_some() { self.start } else { self.start.towards(&self.end, part) };
                // The pelvis begins where it was: contacts say where it has to go.
                let wish = Pose { root: super::Root { pelvis: before.root.pelvis, ..wish.root }, ..wish };
                // What the contacts changed last time they will change again by about as much.
                let guess = nudged(&before, &wished, &wish);
                let pose = settle(body, &guess, &wish, &self.demands(body, Some(&origin), part));
                (before, wished) = (pose, wish);
                Frame { pose, figure: Figure::of(body, &pose) }
            })
            .collect()
    }

    /// The furthest that any contact is from what it should touch.
    pub fn miss(&self, body: &Body, frame: &Frame) -> Length {
        let demands = self.demands(body, None, 0.0);
        let worst = demands
            .iter()
            .map(|demand| demand.off(&frame.figure).iter().map(|off| off * off).sum::<f64>().sqrt())
            .fold(0.0, f64::max);
        Length::from_metres(worst)
    }

    fn demands(&self, body: &Body, since: Option<&Figure>, part: f64) -> Vec<Demand> {
        let flesh = |part: Part| part.flesh(body.person.stature).metres();
        self.contacts
            .iter()
            .map(|contact| {
                let away = flesh(contact.part) + contact.gap.metres();
                match contact.touches {
                    Touches::Part(other) => {
                        Demand { part: contact.part, wish: Wish::Beside(other, away + flesh(other)) }
                    }
                    Touches::Surface(surface) => {
                        let (axis, level) = surface.level(away);
                        let wish = match since.map(|figure| contact.part.of(figure)) {
                            Some(place) if !contact.slides => {
                                Wish::At(self.target(surface, place, axis, level, part))
                            }
                            _ => Wish::Level(axis, level),
                        };
                        Demand { part: contact.part, wish }
                    }
                }
            })
            .collect()
    }

    /// Where a fixed contact has to be: where it began, or on its circle on the wall.
    fn target(&self, surface: Surface, began: Place, axis: usize, level: f64, part: f64) -> [f64; 3] {
        let mut at = [began.right.metres(), began.forward.metres(), began.up.metres()];
        at[axis] = level;
        if let (Some(radius), Surface::Wall(_)) = (self.circle, surface) {
            let (sin, cos) = (part * std::f64::consts::TAU).sin_cos();
            at[0] += radius.metres() * sin;
            at[2] += radius.metres().abs() * cos;
        }
        at
    }
}

impl Surface {
    /// Axis at right angles to it, and where along that axis something so thick comes to lie.
    fn level(self, away: f64) -> (usize, f64) {
        match self {
            Self::Floor => (2, away),
            Self::Bench(height) => (2, height.metres() + away),
            Self::Wall(forward) => (1, forward.metres() - away),
        }
    }
}
