//! The page of all commands, written from the help of each one.

use clap::{Command, CommandFactory};

use super::Cli;

/// What stands above the commands.
const HEAD: &str = "\
# Commands

Written from the help of the program itself: do not edit. A test fails when this page is stale; write it anew with
`UPDATE_DOCS=1 cargo test -p cuffwright --test cli reference`.
";

/// The reference page in Markdown.
pub fn reference() -> String {
    let mut root = Cli::command();
    // Global options become part of every subcommand only when the tree is built.
    root.build();
    let mut page = HEAD.to_owned();
    section(&mut page, &mut root);
    page
}

fn section(page: &mut String, command: &mut Command) {
    let title = command.get_bin_name().unwrap_or(command.get_name()).to_owned();
    let help = command.render_long_help().to_string();
    page.push_str(&format!("\n## `{title}`\n\n```text\n"));
    for line in help.trim_end().lines() {
        page.push_str(line.trim_end());
        page.push('\n');
    }
    page.push_str("```\n");
    for child in command.get_subcommands_mut() {
        section(page, child);
    }
}
