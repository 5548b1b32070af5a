//! Which facts hold, worked out from the corrections alone: a pure function of the set.
//!
//! A correction counts if what it names has the same subject and kind, or has not arrived yet. Corrections form
//! trees; a fact holds while nothing replaces it. Three shapes need a person, and nothing in them disappears:
//! a fork (two corrections of one fact), a loop (corrections that replace each other in a circle) and a stray
//! (a correction that names a fact of somebody else, or of another kind).
//!
//! A branch of a fork that ends only in retractions of its own corrections is withdrawn and no longer counts:
//! so a person settles a fork by retracting the correction that is wrong.

use std::collections::{BTreeMap, BTreeSet};

use crate::id::{FactId, SubjectId};

/// Something a person must settle. Until then every fact in it that holds is marked as contested.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Conflict {
    /// Several corrections of one fact hold, at least one with a value.
    Fork {
        /// Whose facts.
        subject: SubjectId,
        /// The fact they replace; it may not have arrived yet.
        of: FactId,
        /// The newest facts of each branch, retractions among them.
        heads: Vec<FactId>,
    },
    /// These facts replace each other in a circle.
    Loop {
        /// Whose facts.
        subject: SubjectId,
        /// All of them.
        members: Vec<FactId>,
    },
    /// A correction of a fact that has another subject or kind; it replaces nothing.
    Stray {
        /// The subject of the correction.
        subject: SubjectId,
        /// The correction.
        correction: FactId,
        /// What it names.
        of: FactId,
    },
}

/// One correction, without its content.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Link {
    pub(crate) id: FactId,
    pub(crate) of: FactId,
    pub(crate) subject: SubjectId,
    pub(crate) kind: String,
    /// False for a retraction.
    pub(crate) has_value: bool,
    /// Whether the named fact has the same subject and kind; `None` while it has not arrived.
    pub(crate) fits: Option<bool>,
}

/// What the corrections amount to.
#[derive(Debug, Default, PartialEq, Eq)]
pub(crate) struct Resolution {
    pub(crate) superseded: BTreeSet<FactId>,
    pub(crate) contested: BTreeSet<FactId>,
    pub(crate) conflicts: Vec<Conflict>,
    pub(crate) waiting: Vec<FactId>,
}

pub(crate) fn resolve(mut links: Vec<Link>) -> Resolution {
    links.sort_by_key(|link| link.id);
    let mut found = Resolution::default();
    let mut by_id = BTreeMap::new();
    for link in &links {
        match link.fits {
            Some(false) => {
                found.contested.insert(link.id);
                found.conflicts.push(Conflict::Stray {
                    subject: link.subject,
                    correction: link.id,
                    of: link.of,
                });
                continue;
            }
            Some(true) => {}
            None => found.waiting.push(link.id),
        }
        by_id.insert(link.id, link);
    }
    take_out_loops(&mut by_id, &mut found);
    let trees = Trees::grow(&by_id, links.iter().map(|link| (link.id, link.has_value)).collect());
    found.superseded.extend(by_id.values().map(|link| link.of));
    trees.find_forks(&mut found);
    found.conflicts.sort_unstable();
    found
}

/// Removes the corrections that lead back to themselves: each of their facts then holds, contested.
fn take_out_loops(by_id: &mut BTreeMap<FactId, &Link>, found: &mut Resolution) {
    let mut settled = BTreeSet::new();
    let mut members = BTreeSet::new();
    for start in by_id.keys() {
        let mut path = Vec::new();
        let mut on_path = BTreeSet::new();
        let mut here = *start;
        while let Some(link) = by_id.get(&here) {
            if settled.contains(&here) {
                break;
            }
            if !on_path.insert(here) {
                let begin = path.iter().position(|id| *id == here).expect("it is on the path");
                let mut circle = path[begin..].to_vec();
                circle.sort_unstable();
                members.extend(circle.iter().copied());
                found.conflicts.push(Conflict::Loop { subject: link.subject, members: circle });
                break;
            }
            path.push(here);
            here = link.of;
        }
        settled.extend(path);
    }
    by_id.retain(|id, _| !members.contains(id));
    found.contested.extend(members);
}

/// What each fact is replaced by, split by the corrections' subject and kind, and whether a value comes of it.
struct Trees<'a> {
    /// Children in order of id. A missing fact may be named from two subjects: those are two trees.
    children: BTreeMap<(FactId, SubjectId, &'a str), Vec<FactId>>,
    place: BTreeMap<FactId, (SubjectId, &'a str)>,
    has_value: BTreeMap<FactId, bool>,
    /// Corrections, each after everything that replaces it.
    upwards: Vec<FactId>,
}

impl<'a> Trees<'a> {
    fn grow(by_id: &BTreeMap<FactId, &'a Link>, has_value: BTreeMap<FactId, bool>) -> Self {
        let mut children: BTreeMap<_, Vec<FactId>> = BTreeMap::new();
        let mut place = BTreeMap::new();
        for link in by_id.values() {
            place.insert(link.id, (link.subject, link.kind.as_str()));
            children.entry((link.of, link.subject, link.kind.as_str())).or_default().push(link.id);
        }
        let mut trees = Self { children, place, has_value, upwards: Vec::new() };
        // Roots first, level by level, then turned round.
        let mut level: Vec<FactId> =
            by_id.values().filter(|link| !by_id.contains_key(&link.of)).map(|link| link.id).collect();
        while !level.is_empty() {
            trees.upwards.extend(&level);
            level = level.iter().flat_map(|id| trees.children_of(*id)).copied().collect();
        }
        trees.upwards.reverse();
        trees
    }

    fn children_of(&self, id: FactId) -> &[FactId] {
        self.place
            .get(&id)
            .and_then(|(subject, kind)| self.children.get(&(id, *subject, *kind)))
            .map_or(&[], Vec::as_slice)
    }

    fn find_forks(&self, found: &mut Resolution) {
        // For each correction: does any fact that now stands in its place have a value?
        let mut yields = BTreeMap::new();
        for id in &self.upwards {
            let replaced_by = self.children_of(*id);
            let value = match replaced_by {
                [] => self.has_value[id],
                _ => replaced_by.iter().any(|child| yields[child]),
            };
            yields.insert(*id, value);
        }
        for ((of, subject, _), branches) in &self.children {
            let standing: Vec<FactId> = branches
                .iter()
                .copied()
                .filter(|branch| yields[branch] || self.children_of(*branch).is_empty())
                .collect();
            if standing.len() < 2 || !standing.iter().any(|branch| yields[branch]) {
                continue;
            }
            let heads = self.heads(standing);
            found.contested.extend(heads.iter().copied());
            found.conflicts.push(Conflict::Fork { subject: *subject, of: *of, heads });
        }
    }

    fn heads(&self, mut below: Vec<FactId>) -> Vec<FactId> {
        let mut heads = Vec::new();
        while let Some(id) = below.pop() {
            match self.children_of(id) {
                [] => heads.push(id),
                replaced_by => below.extend(replaced_by),
            }
        }
        heads.sort_unstable();
        heads
    }
}

#[cfg(test)]
mod tests;
