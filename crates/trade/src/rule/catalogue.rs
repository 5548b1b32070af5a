//! Every rule by its code: the one place where a code is looked up.
