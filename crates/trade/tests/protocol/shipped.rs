//! The shipped protocol.
use trade::protocol::read::{SHIPPED_TEXT, read};
#[test]
fn the_shipped_protocol_reads_without_a_problem() {
    match read(SHIPPED_TEXT) {
        Ok(protocol) => assert_eq!(protocol.hash.len(), 64),
        Err(problems) => panic!("{problems:#?}"),
    }
}
