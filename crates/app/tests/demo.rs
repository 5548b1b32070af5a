use app::demo::{self, CAST, Case};
use std::time::Instant;
use store::Store;
use trade::protocol::shipped;

#[test]
fn report() {
    let protocol = shipped().clone();
    let t = Instant::now();
    let facts = demo::facts(demo::SEED, &protocol);
    let made = t.elapsed();
    let mut kinds = std::collections::BTreeMap::new();
    for f in &facts {
        *kinds.entry(f.kind.clone()).or_insert(0) += 1;
    }
    println!("{} facts, {kinds:?}", facts.len());
    let t2 = Instant::now();
    let mut desk = app::desk::Desk::new(Store::in_memory().unwrap(), protocol).unwrap();
    desk.append(&demo::morning(), facts).unwrap();
    println!("made {made:?} stored+read {:?}", t2.elapsed());
    let t3 = Instant::now();
    let people: Vec<_> = desk.people().cloned().collect();
    let mut n = 0;
    for p in &people {
        let a = desk.assess(p, demo::DAY);
        let m = CAST.iter().find(|m| m.name == p.read.swimmer.name).unwrap();
        println!(
            "== {} {:?}  person {:?} L {:?} R {:?} unreadable {} contested {}",
            m.name,
            m.case,
            a.gate.person(),
            a.gate.shoulder(trade::side::Side::Left),
            a.gate.shoulder(trade::side::Side::Right),
            p.read.unreadable.len(),
            p.contested
        );
        for h in &a.gate.holds {
            println!(
                "   hold {:?} {} since {}",
                h.availability,
                desk.texts().line(&h.line, desk.reader()),
                h.since
            );
        }
        for x in &a.gate.notes {
            println!("   note {}", desk.texts().line(x, desk.reader()));
        }
        if let Some(g) = &a.gate.tracks.growth {
            println!("   growth since {} w{} {}", g.since, g.week, desk.texts().line(&g.line, desk.reader()));
        }
        if a.gate.tracks.hypermobile.is_some() {
            println!("   hypermobile");
        }
        for d in &a.due {
            n += 1;
            println!("   DUE {:?} by {} {}", d.kind, d.by, desk.texts().line(&d.line, desk.reader()));
        }
        for q in &a.plan.proposals {
            if ["RC-1", "RC-3", "SC-1", "CO-1", "SC-2", "SC-3", "CO-4"].contains(&q.exercise.as_str()) {
                println!(
                    "   {} {:?} {:?} {:?} -> {:?} {}/{} alone {} : {}",
                    q.exercise,
                    q.side,
                    q.action,
                    q.from.as_ref().map(|r| r.to_string()),
                    q.dose.as_ref().map(|d| (
                        d.rung.as_ref().map(|r| r.to_string()),
                        d.sets,
                        d.cap.seconds()
                    )),
                    q.count.have,
                    q.count.need,
                    q.alone.len(),
                    desk.texts().line(&q.trace[0], desk.reader())
                );
            }
        }
    }
    println!("assess {:?}; due {n}", t3.elapsed());
    for w in desk.review_on(demo::DAY) {
        println!(
            "REVIEW {} {} {:?} {:?} together {}",
            w.name,
            w.proposal.exercise,
            w.proposal.side,
            w.proposal.action,
            w.may_go_together()
        );
    }
    let mut d = std::collections::BTreeMap::new();
    for p in &people {
        for x in &p.read.decisions {
            *d.entry((x.proposed.clone(), format!("{:?}", x.verdict))).or_insert(0) += 1;
        }
    }
    println!("{d:?}");
    let _ = Case::Ordinary;
}
