//! Words compared without regard to capitals, accents and spacing.

/// The plain letters of an accented or joined letter, where it has any.
fn plain(c: char) -> Option<&'static str> {
    Some(match c {
        'à' | 'á' | 'â' | 'ã' | 'ä' | 'å' | 'ā' | 'ă' | 'ą' | 'ǎ' => "a",
        'ç' | 'ć' | 'ĉ' | 'ċ' | 'č' => "c",
        'ď' | 'đ' | 'ð' => "d",
        'è' | 'é' | 'ê' | 'ë' | 'ē' | 'ĕ' | 'ė' | 'ę' | 'ě' => "e",
        'ĝ' | 'ğ' | 'ġ' | 'ģ' => "g",
        'ĥ' | 'ħ' => "h",
        'ì' | 'í' | 'î' | 'ï' | 'ĩ' | 'ī' | 'ĭ' | 'į' | 'ı' => "i",
        'ĵ' => "j",
        'ķ' => "k",
        'ĺ' | 'ļ' | 'ľ' | 'ŀ' | 'ł' => "l",
        'ñ' | 'ń' | 'ņ' | 'ň' => "n",
        'ò' | 'ó' | 'ô' | 'õ' | 'ö' | 'ø' | 'ō' | 'ŏ' | 'ő' => "o",
        'ŕ' | 'ŗ' | 'ř' => "r",
        'ś' | 'ŝ' | 'ş' | 'š' | 'ș' => "s",
        'ţ' | 'ť' | 'ŧ' | 'ț' => "t",
        'ù' | 'ú' | 'û' | 'ü' | 'ũ' | 'ū' | 'ŭ' | 'ů' | 'ű' | 'ų' => "u",
        'ŵ' => "w",
        'ý' | 'ÿ' | 'ŷ' => "y",
        'ź' | 'ż' | 'ž' => "z",
        'ß' => "ss",
        'æ' => "ae",
        'œ' => "oe",
        'þ' => "th",
        _ => return None,
    })
}

/// Lower-case words without accents; everything that is neither letter nor digit separates, and so does the border
/// between letters and digits.
pub(super) fn tokens(text: &str) -> Vec<String> {
    let mut words: Vec<String> = Vec::new();
    let mut current = String::new();
    let mut was_digit = false;
    for c in text.chars().flat_map(char::to_lowercase) {
        if ('\u{300}'..='\u{36f}').contains(&c) {
            continue;
        }
        if !c.is_alphanumeric() {
            words.push(std::mem::take(&mut current));
            continue;
        }
        let is_digit = c.is_numeric();
        if !current.is_empty() && is_digit != was_digit {
            words.push(std::mem::take(&mut current));
        }
        was_digit = is_digit;
        match plain(c) {
            Some(letters) => current.push_str(letters),
            None => current.push(c),
        }
    }
    words.push(current);
    words.retain(|word| !word.is_empty());
    words
}

/// All words run together: the form in which headers, exercises and choices are compared.
pub(super) fn squashed(text: &str) -> String {
    tokens(text).concat()
}

/// A name for comparison: "Last, First" reads as "First Last".
pub fn name_key(name: &str) -> String {
    match name.split_once(',') {
        Some((last, first)) if !first.trim().is_empty() && !first.contains(',') => {
            let mut words = tokens(first);
            words.extend(tokens(last));
            words.join(" ")
        }
        _ => tokens(name).join(" "),
    }
}

/// A club number for comparison: capitals, spaces and leading zeros do not matter.
pub(super) fn number_key(number: &str) -> String {
    let squashed = number.trim().to_lowercase().split_whitespace().collect::<String>();
    let shorter = squashed.trim_start_matches('0');
    if shorter.is_empty() { squashed } else { shorter.to_owned() }
}

/// The candidates most like a word, best first, at most three; only those near enough to be meant.
pub(super) fn nearest<'a>(word: &str, candidates: impl Iterator<Item = &'a str>) -> Vec<&'a str> {
    let wanted = name_key(word);
    let mut scored: Vec<(f64, &str)> = candidates
        .map(|candidate| (strsim::jaro_winkler(&wanted, &name_key(candidate)), candidate))
        .filter(|(score, _)| 0.85 <= *score)
        .collect();
    scored.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(b.1)));
    scored.dedup_by(|a, b| a.1 == b.1);
    scored.into_iter().take(3).map(|(_, candidate)| candidate).collect()
}

/// A number for people: at most two decimals, no trailing zeros.
pub(super) fn short(value: f64) -> String {
    let rounded = (value * 100.0).round() / 100.0;
    format!("{}", if rounded == 0.0 { 0.0 } else { rounded })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_compare_whatever_their_dress() {
        for (one, other) in [
            ("Zoë Ängström", "ZOE ANGSTROM"),
            ("Ängström, Zoë", "Zoë Ängström"),
            ("Zoe\u{308} A\u{30a}ngstro\u{308}m", "zoë  ångström"),
            ("Łucja O'Quill-Vane", "lucja o quill vane"),
        ] {
            assert_eq!(name_key(one), name_key(other), "{one} / {other}");
        }
        assert_ne!(name_key("Thomas Martin"), name_key("Martin Thomas"));
        assert_eq!(number_key(" 0012 "), number_key("12"));
        assert_eq!(number_key("000"), "000");
    }

    #[test]
    fn headers_fall_into_words() {
        assert_eq!(tokens("ER_force-L (N)"), ["er", "force", "l", "n"]);
        assert_eq!(tokens("Set1"), ["set", "1"]);
        assert_eq!(squashed("Date of Birth"), squashed("date_of birth"));
    }
}
