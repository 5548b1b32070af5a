//! Everything that can be said about a week has its sentence.

use app::text::Texts;
use schedule::week::prefer::Preference;
use schedule::week::request::OfferKind;
use schedule::week::requirement::Kind;

#[test]
fn every_requirement_preference_offer_and_problem_has_its_words() {
    let texts = Texts::english();
    for kind in Kind::ALL {
        assert!(texts.has(&format!("requirement-{}", kind.word())), "{kind:?}");
    }
    for preference in Preference::ALL {
        assert!(texts.has(&format!("prefer-{}", preference.word())), "{preference:?}");
    }
    for kind in [OfferKind::AfterLast, OfferKind::EndsEarlyEnough, OfferKind::SameDay, OfferKind::OtherDay] {
        assert!(texts.has(&format!("offer-{}", kind.word())), "{kind:?}");
    }
    for message in schedule::describe::problem::MESSAGES {
        assert!(texts.has(message.says) && texts.has(message.hint), "{}", message.says);
        let values: Vec<(&str, String)> =
            message.args.iter().map(|name| (*name, "value".to_owned())).collect();
        for says in [message.says, message.hint] {
            let said = texts.say(says, &values);
            assert!(!said.contains("{$"), "{says}: {said}");
        }
    }
}
