//! Columns of a kit list.

use quantity::reading::Dimension::{Count, Force, Length, Mass};

use super::Reads::{Choice, Day, Quantity, Text, YesNo};
use super::{Col, Spec, column};

/// Every column of a kit list.
#[rustfmt::skip]
pub(super) static COLUMNS: &[Spec] = &[
    column(Col::Mark, "mark", Text, &["id", "label", "piece", "club mark", "kit id", "tag", "kennzeichen", "marque"]),
    column(Col::KitKind, "kind", Choice, &["type", "what", "item", "art", "sorte"]),
    column(Col::DoubleForce, "force at double length", Quantity(Force), &["double length force", "force at 100%", "force", "pull", "measured force", "kraft bei doppelter länge", "kraft"]),
    column(Col::RestLength, "rest length", Quantity(Length), &["length", "unstretched length", "ruhelänge", "länge"]),
    column(Col::PieceMass, "mass", Quantity(Mass), &["weight", "gewicht", "masse", "poids"]),
    column(Col::Pieces, "pieces", Quantity(Count), &["count", "quantity", "how many", "qty", "anzahl", "stück", "pièces"]),
    column(Col::InService, "in service", Day, &["in service since", "since", "bought", "in use since", "in gebrauch seit", "seit"]),
    column(Col::Latex, "latex", YesNo, &["contains latex", "has latex", "enthält latex"]),
];
