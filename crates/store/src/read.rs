//! Reading: what holds, what needs a person, and one digest of it all.

use rusqlite::{Params, Row};

use crate::error::Error;
use crate::fact::{Fact, LiveFact, Tombstone};
use crate::id::{Digest, FactId, SubjectId};
use crate::resolve::{Conflict, Link, Resolution, resolve};
use crate::{Store, row};

/// How much a store holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Counts {
    /// Facts ever stored, replaced and erased ones among them.
    pub facts: u64,
    /// Facts of which erasure has left a tombstone.
    pub tombstones: u64,
    /// Subjects erased.
    pub erasures: u64,
    /// Refused facts that wait for a person.
    pub open_refusals: u64,
    /// Texts kept by their hash.
    pub documents: u64,
}

impl Store {
    /// Moves on with every change of what can be read, and never back: what was computed from the store at one
    /// revision holds as long as the revision does.
    pub fn revision(&self) -> u64 {
        self.revision
    }

    /// The facts of one subject that nothing replaces, in order of id (an order without meaning).
    pub fn live_facts(&self, subject: SubjectId) -> Result<Vec<LiveFact>, Error> {
        self.living(include_str!("../sql/facts_of_subject.sql"), [subject], &self.resolution_of(subject)?)
    }

    /// The facts of one kind that nothing replaces, of every subject, in order of id.
    pub fn live_facts_of_kind(&self, kind: &str) -> Result<Vec<LiveFact>, Error> {
        self.living(include_str!("../sql/facts_of_kind.sql"), [kind], &self.resolution()?)
    }

    /// All facts that nothing replaces, in order of id.
    pub fn all_live_facts(&self) -> Result<Vec<LiveFact>, Error> {
        self.living(include_str!("../sql/all_facts.sql"), [], &self.resolution()?)
    }

    /// Every fact of one subject, replaced ones and retractions too, in order of arrival.
    pub fn history(&self, subject: SubjectId) -> Result<Vec<Fact>, Error> {
        let query = include_str!("../sql/history_of_subject.sql");
        row::all(&self.connection, query, [subject], row::fact)
    }

    /// One fact, live or replaced; `None` if there is none or it is erased.
    pub fn fact(&self, id: FactId) -> Result<Option<Fact>, Error> {
        Ok(row::all(&self.connection, include_str!("../sql/fact.sql"), [id], row::fact)?.pop())
    }

    /// Every subject with at least one fact that is not erased, in order of id.
    pub fn subjects(&self) -> Result<Vec<SubjectId>, Error> {
        let query = include_str!("../sql/subjects.sql");
        let mut subjects = row::all(&self.connection, query, [], |row| row.get(0))?;
        subjects.sort_unstable();
        Ok(subjects)
    }

    /// What a person must settle.
    pub fn conflicts(&self) -> Result<Vec<Conflict>, Error> {
        Ok(self.resolution()?.conflicts)
    }

    /// What a person must settle about one subject.
    pub fn conflicts_of(&self, subject: SubjectId) -> Result<Vec<Conflict>, Error> {
        Ok(self.resolution_of(subject)?.conflicts)
    }

    /// Corrections whose target has not arrived; they hold meanwhile.
    pub fn waiting_corrections(&self) -> Result<Vec<FactId>, Error> {
        Ok(self.resolution()?.waiting)
    }

    /// What erasures have left.
    pub fn tombstones(&self) -> Result<Vec<Tombstone>, Error> {
        row::all(&self.connection, include_str!("../sql/tombstones.sql"), [], row::tombstone)
    }

    /// How much there is.
    pub fn counts(&self) -> Result<Counts, Error> {
        Ok(self.connection.query_row(include_str!("../sql/counts.sql"), [], |row| {
            Ok(Counts {
                facts: row.get(0)?,
                tombstones: row.get(1)?,
                erasures: row.get(2)?,
                open_refusals: row.get(3)?,
                documents: row.get(4)?,
            })
        })?)
    }

    /// SHA-256 over the live facts (id, content, contested or not) in order of id: equal for equal sets of facts.
    pub fn digest_of_state(&self) -> Result<Digest, Error> {
        let resolution = self.resolution()?;
        let mut contents: Vec<(FactId, Digest)> =
            row::all(&self.connection, include_str!("../sql/contents.sql"), [], |row| {
                Ok((row.get(0)?, row.get(1)?))
            })?;
        contents.retain(|(id, _)| !resolution.superseded.contains(id));
        contents.sort_unstable();
        let mut fields: Vec<Option<&[u8]>> = Vec::with_capacity(3 * contents.len());
        for (id, content) in &contents {
            let mark: &[u8] = if resolution.contested.contains(id) { b"contested" } else { b"" };
            fields.extend([Some(id.raw()), Some(content.bytes()), Some(mark)]);
        }
        Ok(Digest::of_fields(&fields))
    }

    /// Reads the facts of a query that nothing replaces; the others are passed over unread.
    fn living(
        &self,
        query: &str,
        parameters: impl Params,
        resolution: &Resolution,
    ) -> Result<Vec<LiveFact>, Error> {
        let mut live = Vec::new();
        let mut statement = self.connection.prepare_cached(query)?;
        let mut rows = statement.query(parameters)?;
        while let Some(row) = rows.next()? {
            let id: FactId = row.get(0)?;
            if resolution.superseded.contains(&id) {
                continue;
            }
            let fact = row::fact(row)?;
            if fact.told.payload.is_some() {
                live.push(LiveFact { fact, contested: resolution.contested.contains(&id) });
            }
        }
        // Where the query has sorted them already, this only looks.
        live.sort_by_key(|live| live.fact.told.id);
        Ok(live)
    }

    pub(crate) fn all_facts(&self) -> Result<Vec<Fact>, Error> {
        row::all(&self.connection, include_str!("../sql/all_facts.sql"), [], row::fact)
    }

    fn resolution(&self) -> Result<Resolution, Error> {
        Ok(resolve(row::all(&self.connection, include_str!("../sql/all_links.sql"), [], link)?))
    }

    fn resolution_of(&self, subject: SubjectId) -> Result<Resolution, Error> {
        let query = include_str!("../sql/links_of_subject.sql");
        Ok(resolve(row::all(&self.connection, query, [subject], link)?))
    }
}

fn link(row: &Row<'_>) -> rusqlite::Result<Link> {
    Ok(Link {
        id: row.get(0)?,
        of: row.get(1)?,
        subject: row.get(2)?,
        kind: row.get(3)?,
        has_value: row.get(4)?,
        fits: row.get(5)?,
    })
}
