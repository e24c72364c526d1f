//! How is a document's fault shown, with its line and the value underlined?

use std::io::IsTerminal;
use std::path::Path;

use annotate_snippets::{AnnotationKind, Group, Level, Renderer, Snippet};
use boxneck::Refusal;
use boxneck::spec::{Diagnostic, Document, Origin, Place, Severity};
use serde_json::{Value, json};

/// Shows what is wrong with a document on standard error.
pub(crate) fn show_refusal(path: &Path, document: &Document, refusal: &Refusal) {
    match refusal {
        Refusal::Document(diagnostics) => show(path, document, diagnostics),
        other => eprintln!("error: {other}\n  --> {}", path.display()),
    }
}

/// Shows diagnostics on standard error, in the order of the text.
pub(crate) fn show(path: &Path, document: &Document, diagnostics: &[Diagnostic]) {
    for diagnostic in diagnostics {
        eprintln!("{}\n", rendered(path, document.source(), diagnostic));
    }
}

fn rendered(path: &Path, source: &str, diagnostic: &Diagnostic) -> String {
    let level = match diagnostic.severity {
        Severity::Error => Level::ERROR,
        Severity::Warning => Level::WARNING,
        Severity::Note => Level::NOTE,
    };
    let name = path.display().to_string();
    let code = diagnostic.code.to_string();
    let title = level.primary_title(diagnostic.message.as_str()).id(code);
    let mut group = match diagnostic.place.span() {
        Some(span) => {
            let others = diagnostic.labels.iter().filter_map(|label| {
                Some(AnnotationKind::Context.span(label.place.span()?).label(label.text.as_str()))
            });
            let snippet = Snippet::source(source)
                .path(name)
                .annotation(AnnotationKind::Primary.span(span).label(where_it_is(&diagnostic.place)))
                .annotations(others);
            title.element(snippet)
        }
        None => Group::with_title(title).element(Level::NOTE.message(where_it_is(&diagnostic.place))),
    };
    for hint in &diagnostic.hints {
        group = group.element(Level::HELP.message(hint.text.as_str()));
    }
    let coloured = std::io::stderr().is_terminal() && std::env::var_os("NO_COLOR").is_none();
    let renderer = if coloured { Renderer::styled() } else { Renderer::plain() };
    renderer.render(&[group])
}

fn where_it_is(place: &Place) -> String {
    match &place.origin {
        Origin::Override { key, value } => format!("{key} = {value}, given beside the document"),
        Origin::Source(_) => place.key.clone(),
        Origin::Default if place.key.is_empty() => "the document as a whole".into(),
        Origin::Default => format!("{}, not written", place.key),
    }
}

/// The same diagnostics for programs.
pub(crate) fn record(refusal: &Refusal) -> Value {
    match refusal {
        Refusal::Document(diagnostics) => diagnostics.iter().map(diagnostic_record).collect(),
        other => json!([{ "severity": "error", "message": other.to_string() }]),
    }
}

/// One diagnostic for programs.
pub(crate) fn diagnostic_record(diagnostic: &Diagnostic) -> Value {
    json!({
        "severity": diagnostic.severity.word(),
        "code": diagnostic.code.to_string(),
        "message": diagnostic.message,
        "key": diagnostic.place.key,
        "bytes": diagnostic.place.span().map(|span| [span.start, span.end]),
        "hints": diagnostic.hints.iter().map(|hint| json!({
            "text": hint.text,
            "edit": hint.edit.as_ref().map(|edit| json!({ "key": edit.key, "value": edit.value })),
        })).collect::<Vec<_>>(),
    })
}
