//! Tables with caption and scope, and the pages of a long list.

use maud::{Markup, html};

use crate::web::words::{Value, say, text};

/// One column.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Column<'a> {
    /// Its heading.
    pub head: &'a str,
    /// True for numbers, which stand flush at the end of the line.
    pub number: bool,
}

impl<'a> Column<'a> {
    /// A column of words.
    pub const fn words(head: &'a str) -> Self {
        Self { head, number: false }
    }

    /// A column of numbers.
    pub const fn number(head: &'a str) -> Self {
        Self { head, number: true }
    }
}

/// A table. The first cell of a row names the row.
///
/// `key` is an id that no other table of the page has. A wide table scrolls inside its own frame, which the
/// keyboard can reach.
pub fn table(key: &str, caption: &str, columns: &[Column<'_>], rows: &[Vec<Markup>]) -> Markup {
    let class = |column: Option<&Column<'_>>| column.filter(|column| column.number).map(|_| "number");
    html! {
        div.table-frame role="region" tabindex="0" aria-labelledby=(key) {
            table {
                caption id=(key) { (caption) }
                thead { tr { @for column in columns { th scope="col" class=[class(Some(column))] { (column.head) } } } }
                tbody {
                    @for row in rows {
                        tr {
                            @for (index, cell) in row.iter().enumerate() {
                                @if index == 0 { th scope="row" class=[class(columns.first())] { (cell) } }
                                @else { td class=[class(columns.get(index))] { (cell) } }
                            }
                        }
                    }
                }
            }
        }
    }
}

/// Where one is in a long list.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Paging<'a> {
    /// Page shown, counted from one.
    pub page: u32,
    /// Pages there are.
    pub pages: u32,
    /// Address of the list up to and including `page=`.
    pub href: &'a str,
}

/// Previous, where, next. Nothing at all when everything stands on one page.
pub fn paging(shown: Paging<'_>) -> Markup {
    let number = |value: u32| Value::Count(i64::from(value));
    html! {
        @if 1 < shown.pages {
            nav.paging aria-label=(text("paging")) {
                @if 1 < shown.page {
                    a.button.button-plain rel="prev" href={ (shown.href) (shown.page - 1) } { (text("paging-previous")) }
                }
                p { (say("paging-where", &[("page", number(shown.page)), ("pages", number(shown.pages))])) }
                @if shown.page < shown.pages {
                    a.button.button-plain rel="next" href={ (shown.href) (shown.page + 1) } { (text("paging-next")) }
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_table_has_caption_scope_and_a_frame_for_the_keyboard() {
        let rows = [vec![html! { "Ilse" }, html! { "118" }]];
        let shown =
            table("t1", "Set times", &[Column::words("Name"), Column::number("s")], &rows).into_string();
        assert!(shown.contains("<caption id=\"t1\">Set times") && shown.contains("tabindex=\"0\""));
        assert_eq!((shown.matches("scope=\"col\"").count(), shown.matches("scope=\"row\"").count()), (2, 1));
        assert!(shown.contains("<td class=\"number\">118"));
    }

    #[test]
    fn pages_lead_only_where_there_are_some() {
        let at = |page, pages| paging(Paging { page, pages, href: "/people?page=" }).into_string();
        assert_eq!(at(1, 1), "");
        assert!(at(1, 3).contains("page=2") && !at(1, 3).contains("rel=\"prev\""));
        assert!(at(3, 3).contains("page=2") && !at(3, 3).contains("rel=\"next\""));
    }
}
