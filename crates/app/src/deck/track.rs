//! The beat of a whole session as sound, for clubs that allow no phone on deck: the same tones at the same moments as
//! the console makes, as WAV or FLAC.
//!
//! A change-over waits for a person on the console; in a track it lasts as long as it is planned for.

use std::f64::consts::TAU;
use std::io::Cursor;

use flacenc::component::BitRepr;
use flacenc::error::Verify;
use trade::protocol::Tempo;

use super::budget::{CHANGE_OVER_S, SIDE_CHANGE_S};

/// Samples a second: twice the highest tone and more, and small files.
pub const RATE: u32 = 8000;
/// Seconds between the first tone of a set's count-in and its beginning.
const LEAD_S: u32 = 3;
const LOUDNESS: f64 = 0.6;
/// Seconds over which a tone rises, so that it does not click.
const RISE_S: f64 = 0.004;

/// One tone: when it begins, its pitch in hertz, how long it sounds. Seconds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cue {
    /// Seconds from the beginning of the set, or of the track.
    pub at: f64,
    /// Which tone.
    pub tone: Tone,
}

/// The tones; pitch and length are those of the console.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[allow(missing_docs, reason = "each variant is its own word")]
pub enum Tone {
    Out,
    Back,
    Tick,
    Turn,
    Ready,
    Go,
    End,
}

impl Tone {
    /// Hertz, seconds.
    const fn sound(self) -> (f64, f64) {
        match self {
            Tone::Out => (660.0, 0.09),
            Tone::Back => (990.0, 0.09),
            Tone::Tick => (1760.0, 0.03),
            Tone::Turn => (1480.0, 0.25),
            Tone::Ready => (740.0, 0.12),
            Tone::Go => (1480.0, 0.5),
            Tone::End => (494.0, 0.9),
        }
    }
}

/// One exercise of the track.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Part {
    /// Tempo.
    pub tempo: Tempo,
    /// The arms work in turn.
    pub is_one_arm: bool,
    /// Longest set, seconds.
    pub cap_s: f64,
    /// Sets.
    pub sets: u8,
}

/// Every tone of one set, from its count-in to its end.
pub fn cues(tempo: Tempo, seconds: f64) -> Vec<Cue> {
    let mut cues: Vec<Cue> =
        (1..=LEAD_S).rev().map(|s| Cue { at: -f64::from(s), tone: Tone::Ready }).collect();
    cues.push(Cue { at: 0.0, tone: Tone::Go });
    match tempo {
        Tempo::Hold => {
            let tens = (1..).map(|count| f64::from(count) * 10.0).take_while(|at| *at < seconds);
            cues.extend(tens.map(|at| Cue { at, tone: Tone::Tick }));
        }
        Tempo::Circles { reverse_every } => {
            let every = reverse_every.seconds().round().max(1.0) as u32;
            let each = (1..).take_while(|count| f64::from(*count) < seconds);
            cues.extend(each.map(|count| Cue {
                at: f64::from(count),
                tone: if count % every == 0 { Tone::Turn } else { Tone::Out },
            }));
        }
        Tempo::Beat { out, hold, back } => {
            let whole = out + hold + back;
            let mut count = 0_u32;
            while 0.0 < whole && f64::from(count) * whole < seconds {
                let at = f64::from(count) * whole;
                if 0 < count {
                    cues.push(Cue { at, tone: Tone::Out });
                }
                let ticks = (1..).map(f64::from).take_while(|s| *s < hold);
                cues.extend(ticks.map(|s| Cue { at: at + out + s, tone: Tone::Tick }));
                if at + out + hold < seconds {
                    cues.push(Cue { at: at + out + hold, tone: Tone::Back });
                }
                count += 1;
            }
        }
    }
    cues.push(Cue { at: seconds, tone: Tone::End });
    cues
}

/// Every tone of a session, and how long it lasts in seconds.
pub fn session(parts: &[Part], rest_s: f64) -> (Vec<Cue>, f64) {
    // Time for "press play and walk to the wall".
    let mut at = 10.0;
    let mut all = Vec::new();
    for (place, part) in parts.iter().enumerate() {
        if 0 < place {
            at += CHANGE_OVER_S;
        }
        let turns = u32::from(part.sets) * if part.is_one_arm { 2 } else { 1 };
        for turn in 0..turns {
            if 0 < turn {
                at += if part.is_one_arm { SIDE_CHANGE_S } else { rest_s };
            }
            all.extend(cues(part.tempo, part.cap_s).into_iter().map(|cue| Cue { at: at + cue.at, ..cue }));
            at += part.cap_s;
        }
    }
    (all, at + 2.0)
}

/// The samples.
pub fn samples(cues: &[Cue], seconds: f64) -> Vec<i16> {
    let rate = f64::from(RATE);
    let mut made = vec![0_i16; (seconds * rate).ceil() as usize];
    for cue in cues {
        let (hertz, lasts) = cue.tone.sound();
        let begin = (cue.at * rate).round().max(0.0) as usize;
        let count = (lasts * rate).round() as usize;
        for (place, sample) in made.iter_mut().skip(begin).take(count).enumerate() {
            let s = place as f64 / rate;
            let swell = (s / RISE_S).min(1.0) * ((lasts - s) / (lasts * 0.4)).min(1.0);
            *sample = ((TAU * hertz * s).sin() * swell * LOUDNESS * f64::from(i16::MAX)) as i16;
        }
    }
    made
}

/// Why no file was made.
#[derive(Debug)]
pub struct NoSound(pub String);

/// As WAV: 16 bits, one channel.
pub fn wav(samples: &[i16]) -> Result<Vec<u8>, NoSound> {
    let spec = hound::WavSpec {
        channels: 1,
        sample_rate: RATE,
        bits_per_sample: 16,
        sample_format: hound::SampleFormat::Int,
    };
    let mut file = Cursor::new(Vec::new());
    let failed = |error: hound::Error| NoSound(error.to_string());
    let mut writer = hound::WavWriter::new(&mut file, spec).map_err(failed)?;
    for sample in samples {
        writer.write_sample(*sample).map_err(failed)?;
    }
    writer.finalize().map_err(failed)?;
    Ok(file.into_inner())
}

/// As FLAC, of the same samples.
pub fn flac(samples: &[i16]) -> Result<Vec<u8>, NoSound> {
    let wide: Vec<i32> = samples.iter().map(|sample| i32::from(*sample)).collect();
    let config = flacenc::config::Encoder::default()
        .into_verified()
        .map_err(|(_, error)| NoSound(format!("{error:?}")))?;
    let source = flacenc::source::MemSource::from_samples(&wide, 1, 16, RATE as usize);
    let stream = flacenc::encode_with_fixed_block_size(&config, source, config.block_size)
        .map_err(|error| NoSound(format!("{error:?}")))?;
    let mut sink = flacenc::bitsink::ByteSink::new();
    stream.write(&mut sink).map_err(|error| NoSound(format!("{error:?}")))?;
    Ok(sink.as_slice().to_vec())
}

#[cfg(test)]
mod tests {
    use super::*;

    const BEAT: Tempo = Tempo::Beat { out: 1.0, hold: 0.0, back: 1.0 };

    #[test]
    fn a_set_of_ten_seconds_has_the_console_s_tones() {
        let at: Vec<(f64, Tone)> =
            cues(BEAT, 10.0).into_iter().filter(|cue| 0.0 < cue.at).map(|cue| (cue.at, cue.tone)).collect();
        assert_eq!(at[..3], [(1.0, Tone::Back), (2.0, Tone::Out), (3.0, Tone::Back)]);
        assert_eq!(at.last(), Some(&(10.0, Tone::End)));
        assert_eq!(at.len(), 10);
    }

    /// Onsets are found again in the samples: none is off by 10 ms, ten minutes on.
    #[test]
    fn onsets_do_not_drift_over_ten_minutes() {
        let part = Part { tempo: BEAT, is_one_arm: false, cap_s: 120.0, sets: 3 };
        let (cues, seconds) = session(&[part, part], 30.0);
        assert!(600.0 < seconds);
        let made = samples(&cues, seconds);
        for cue in &cues {
            let begin = (cue.at * f64::from(RATE)) as usize;
            let silence =
                made[begin.saturating_sub(80)..begin].iter().rev().take(40).all(|sample| *sample == 0);
            let found = made[begin..].iter().position(|sample| 200 < sample.abs()).unwrap();
            assert!(found < 80, "{cue:?} begins {found} samples late");
            assert!(silence || cue.tone == Tone::Go, "{cue:?} begins early");
        }
    }

    #[test]
    fn both_files_hold_the_same_samples_and_flac_is_smaller() {
        let part = Part { tempo: BEAT, is_one_arm: true, cap_s: 20.0, sets: 1 };
        let (cues, seconds) = session(&[part], 30.0);
        let made = samples(&cues, seconds);
        let (wav, flac) = (wav(&made).unwrap(), flac(&made).unwrap());
        let read: Vec<i16> =
            hound::WavReader::new(Cursor::new(&wav)).unwrap().samples().map(Result::unwrap).collect();
        assert_eq!(read, made);
        assert_eq!(&flac[..4], b"fLaC");
        assert!(flac.len() * 2 < wav.len(), "{} against {}", flac.len(), wav.len());
    }

    #[test]
    fn a_track_lasts_as_long_as_the_plan_and_the_walk_to_the_wall() {
        let part = Part { tempo: Tempo::Hold, is_one_arm: true, cap_s: 60.0, sets: 3 };
        assert_eq!(session(&[part], 30.0).1, 12.0 + 385.0);
    }
}
