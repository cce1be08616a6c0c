//! Does a log that was damaged anyhow give a track or faults, and never a panic?

use super::samples::{GPX, IGC, nmea, table};
use super::{read, scenario};

/// Numbers from Knuth's linear congruence (The Art of Computer Programming, 3.3.4; value from memory).
struct Draw(u64);

impl Draw {
    fn below(&mut self, count: usize) -> usize {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) as usize % count.max(1)
    }
}

fn damaged(text: &str, draw: &mut Draw) -> Vec<u8> {
    let mut bytes = text.as_bytes().to_vec();
    for _ in 0..=draw.below(4) {
        let mut lines: Vec<Vec<u8>> = bytes.split_inclusive(|byte| *byte == b'\n').map(<[u8]>::to_vec).collect();
        let line = draw.below(lines.len());
        match draw.below(5) {
            0 if !bytes.is_empty() => {
                let at = draw.below(bytes.len());
                bytes[at] ^= 1 << draw.below(8);
                continue;
            }
            1 => {
                bytes.truncate(draw.below(bytes.len()));
                continue;
            }
            2 if !lines.is_empty() => lines.insert(line, lines[line].clone()),
            3 if !lines.is_empty() => drop(lines.remove(line)),
            _ if !bytes.is_empty() => {
                let at = draw.below(bytes.len());
                bytes[at] = b"0123456789,;.-:\"<>N\xff"[draw.below(20)];
                continue;
            }
            _ => {}
        }
        bytes = lines.concat();
    }
    bytes
}

#[test]
fn any_damage_leaves_a_track_or_faults() {
    let scenario = scenario();
    let (mut tracks, mut refusals) = (0, 0);
    for (name, text) in [("a.gpx", GPX.to_owned()), ("a.csv", table(12)), ("a.nmea", nmea()), ("a.igc", IGC.to_owned())]
    {
        for seed in 0..5000 {
            let bytes = damaged(&text, &mut Draw(seed));
            match read(name, &bytes, &scenario, None) {
                Ok(log) => {
                    let samples = log.track.time_s();
                    assert!(samples.len() > 1 && samples[0] == 0.0 && log.repairs.len() <= 100);
                    tracks += 1;
                }
                Err(faults) => {
                    assert!(!faults.is_empty() && faults.len() <= 100);
                    assert!(faults.iter().all(|fault| !fault.way_out.is_empty()), "{faults:?}");
                    refusals += 1;
                }
            }
        }
    }
    assert!(tracks > 300 && refusals > 100, "{tracks} {refusals}");
}
