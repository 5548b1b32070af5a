//! What only the inside can see: the record the season was played by.

use store::Store;
use trade::protocol::shipped;

use super::*;

#[test]
fn the_desk_reads_the_very_record_that_the_season_was_played_by() {
    let protocol = shipped().clone();
    let desk = open(SEED, protocol.clone(), Store::in_memory().unwrap()).unwrap();
    let calendar = desk.club().calendar.clone();
    for (index, member) in CAST.iter().enumerate() {
        let (subject, _, history) = tell_member(SEED, &protocol, &calendar, index, member);
        assert!(desk.person(subject).unwrap().read.history == history, "{}", member.name);
    }
}
