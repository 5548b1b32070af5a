//! Fatigue within a session: the three-compartment controller with rest recovery, solved exactly.
//!
//! Xia & Frey Law 2008, J Biomech 41:3046-3052; Looft, Herkert & Frey-Law 2018, J Biomech 77:16-25.
//!
//! Valid for isometric loads on one joint of an adult, over seconds to tens of minutes; repetitions are an extension by
//! analogy, adolescents another. It knows no motivation, pain, warmth or position sense. Its memory fades within
//! minutes (1/R is 10 minutes, a fifteenth of that at rest), while measured rotator strength takes 10 minutes and
//! position sense 40 to come back: so it is **never** used for hours or days, to clear anybody, or to foresee pain.
//! It may compare plans: more sets, shorter rests, another order, a cap.

mod curve;
mod muscle;
mod session;
mod solve;

pub use muscle::{Muscle, MuscleRefusal};
pub use session::{AfterSet, Repetitions, Session, SessionRefusal, SetPlan};
pub use solve::{LoadRefusal, Mark, Segment, State, Trajectory};
