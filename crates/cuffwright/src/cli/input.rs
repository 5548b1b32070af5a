//! Files and standard input, with limits: a file that is too large is refused, never read to the end.

use std::fs::File;
use std::io::Read;
use std::path::Path;

use super::exit::Exit;
use super::failure::Failure;

/// The largest file of one kind, in mebibytes.
#[derive(Debug, Clone, Copy)]
pub(crate) struct AtMost(pub(crate) u64);

/// Every byte of a file; `-` is standard input.
pub(crate) fn bytes(path: &Path, at_most: AtMost) -> Result<Vec<u8>, Failure> {
    let limit = at_most.0 << 20;
    let mut read = Vec::new();
    let result = if path.as_os_str() == "-" {
        std::io::stdin().lock().take(limit + 1).read_to_end(&mut read)
    } else {
        File::open(path).and_then(|file| file.take(limit + 1).read_to_end(&mut read))
    };
    result.map_err(|error| Failure::file(path, &error))?;
    if u64::try_from(read.len()).is_ok_and(|length| limit < length) {
        let values = [("file", name_of(path)), ("most", at_most.0.to_string())];
        return Err(Failure::new(Exit::Input, "cli-file-too-large", &values).hint("cli-file-too-large-hint"));
    }
    Ok(read)
}

/// The same as text in UTF-8; a byte order mark is left out.
pub(crate) fn text(path: &Path, at_most: AtMost) -> Result<String, Failure> {
    let text = String::from_utf8(bytes(path, at_most)?).map_err(|error| {
        let valid = &error.as_bytes()[..error.utf8_error().valid_up_to()];
        let line = 1 + valid.iter().filter(|byte| **byte == b'\n').count();
        let values = [("file", name_of(path)), ("line", line.to_string())];
        Failure::new(Exit::Input, "cli-not-text", &values).hint("protocol-not-text-hint")
    })?;
    Ok(text.strip_prefix('\u{feff}').map(str::to_owned).unwrap_or(text))
}

/// What a file is called in messages.
pub(crate) fn name_of(path: &Path) -> String {
    if path.as_os_str() == "-" {
        super::words::word("cli-standard-input")
    } else {
        path.display().to_string()
    }
}
