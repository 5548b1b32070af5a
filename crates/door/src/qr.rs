//! A QR code as an SVG, for the page that helps a phone to trust the laptop.

use std::fmt::Write as _;

use fast_qr::QRBuilder;

/// Light modules around the code that readers need (ISO/IEC 18004, 9.1).
const QUIET: usize = 4;

/// The modules of a code, row by row, true for dark; none when the text is too long for a code.
pub fn modules(text: &str) -> Option<Vec<Vec<bool>>> {
    let code = QRBuilder::new(text.as_bytes()).ecl(fast_qr::ECL::M).build().ok()?;
    let size = code.size;
    Some(
        code.data[..size * size]
            .chunks(size)
            .map(|row| row.iter().map(|module| module.value()).collect())
            .collect(),
    )
}

/// The code as an SVG of its own, dark on light whatever the page's colours, with a name for screen readers. `title`
/// is shown text and is escaped here.
pub fn svg(text: &str, title: &str) -> Option<String> {
    let rows = modules(text)?;
    let side = rows.len() + 2 * QUIET;
    let mut path = String::new();
    for (y, row) in rows.iter().enumerate() {
        for (x, _) in row.iter().enumerate().filter(|(_, dark)| **dark) {
            // Writing into a String cannot fail.
            let _ = write!(path, "M{} {}h1v1h-1z", x + QUIET, y + QUIET);
        }
    }
    let title = title.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;");
    Some(format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {side} {side}\" role=\"img\" \
         shape-rendering=\"crispEdges\"><title>{title}</title>\
         <rect width=\"{side}\" height=\"{side}\" fill=\"#fff\"/><path d=\"{path}\" fill=\"#000\"/></svg>"
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Read back by a decoder that shares no code with the encoder.
    #[test]
    fn a_reader_reads_what_was_written() {
        for text in ["https://cuffwright.local:8443/trust", "https://192.168.1.20:8443/trust?é=1", "x"] {
            let rows = modules(text).unwrap();
            let scale = 6;
            let side = (rows.len() + 2 * QUIET) * scale;
            let mut image = rqrr::PreparedImage::prepare_from_greyscale(side, side, |x, y| {
                let (x, y) = (x / scale, y / scale);
                let dark = y >= QUIET
                    && x >= QUIET
                    && rows.get(y - QUIET).and_then(|row| row.get(x - QUIET)).copied().unwrap_or(false);
                if dark { 0 } else { 255 }
            });
            let grids = image.detect_grids();
            assert_eq!(grids.len(), 1, "{text}");
            assert_eq!(grids[0].decode().unwrap().1, text);
        }
    }

    #[test]
    fn the_drawing_has_a_name_and_every_dark_module() {
        let drawing = svg("https://cuffwright.local", "Trust <this> laptop").unwrap();
        let dark = modules("https://cuffwright.local").unwrap().concat().iter().filter(|dark| **dark).count();
        assert_eq!(drawing.matches("h1v1h-1z").count(), dark);
        assert!(drawing.contains("<title>Trust &lt;this&gt; laptop</title>") && !drawing.contains("style="));
        assert_eq!(svg(&"x".repeat(5000), ""), None);
    }
}
