//! Typed names: an exercise, a rung, a fault and a rule are never interchangeable strings.

use std::fmt;
use std::sync::Arc;

macro_rules! typed_name {
    ($(#[$doc:meta])* $name:ident) => {
        $(#[$doc])*
        #[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub struct $name(Arc<str>);

        impl $name {
            /// Takes the name as it stands in the protocol; whether it exists there is for the reader to check.
            pub fn new(text: &str) -> Self { Self(Arc::from(text)) }

            /// The name as text.
            pub fn as_str(&self) -> &str { &self.0 }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result { f.write_str(&self.0) }
        }
    };
}

typed_name! {
    /// An exercise, for instance `RC-1`.
    ExerciseId
}

typed_name! {
    /// One rung of one exercise's ladder, for instance `b16` (a band that pulls 16 N at double length). Stable: it
    /// does not depend on the rung's place in the ladder.
    RungId
}

typed_name! {
    /// A form fault, for instance `F06`.
    FaultCode
}

typed_name! {
    /// A source in the protocol's reference list.
    SourceKey
}
