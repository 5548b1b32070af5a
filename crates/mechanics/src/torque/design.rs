//! The other way round: which free length of a band asks for a wanted torque.

use quantity::{Angle, Force, Length, Torque};

use crate::elastic::{Law, Piece, PieceRefusal, Strands, Stretch};

/// A band cut for a person.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Design {
    /// Pull of the band at the wanted angle.
    pub pull: Force,
    /// Its stretch there.
    pub stretch: Stretch,
    /// Between the hands there.
    pub span: Length,
    /// Free length between the grips.
    pub free_length: Length,
}

/// Why no length does.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum DesignRefusal {
    /// At this angle the band has no lever.
    NoLever(Angle),
    /// The torque is not positive, or the band would break before it gives this pull.
    Pull(Force),
    /// The geometry has no span.
    Span(Length),
    /// The length it comes to makes no piece.
    Piece(PieceRefusal),
}

/// Free length of a single strand held between both hands so that one arm meets a torque at an angle.
///
/// Show the same for a centimetre more and less: gripping elsewhere is the largest error of use.
pub fn free_length(
    wanted: Torque,
    at: Angle,
    elbow_spacing: Length,
    forearm: Length,
    law: Law,
) -> Result<Design, DesignRefusal> {
    let (sin, cos) = at.radians().sin_cos();
    let lever = forearm.metres() * cos;
    if !(1e-6 < lever && lever < 10.0) {
        return Err(DesignRefusal::NoLever(at));
    }
    let pull = Force::from_newtons((wanted.newton_metres() / lever).clamp(-1e12, 1e12));
    if pull.newtons() <= 0.0 {
        return Err(DesignRefusal::Pull(pull));
    }
    let span = Length::from_metres(elbow_spacing.metres() + 2.0 * forearm.metres() * sin);
    if span.metres() <= 0.0 {
        return Err(DesignRefusal::Span(span));
    }
    let stretch = law.stretch_for(pull).ok_or(DesignRefusal::Pull(pull))?;
    let free_length = Length::from_metres(span.metres() / stretch.ratio());
    Piece::new(law, free_length, Strands::Single).map_err(DesignRefusal::Piece)?;
    Ok(Design { pull, stretch, span, free_length })
}
