//! Who makes what, and what is not right yet?

use export::page::{Card, Notice, Page, Tone};
use export::table::Table;
use fit::Severity;
use spec::StockList;

use super::lists::described;
use super::member::{Absent, Member};
use super::stock_plan::StockPlan;
use crate::findings_record::ToldFinding;
use crate::make::MakeFault;

/// One page over the whole class.
pub(super) fn page(
    title: &str,
    members: &[Member],
    absent: &[Absent],
    wood_plan: Option<(&StockList, &StockPlan)>,
    shopping: &Table,
) -> Result<String, MakeFault> {
    let mut page = Page::new(title);
    let instruments: u32 = members.iter().map(|member| member.enrolment.quantity).sum();
    page.paragraph(&format!("{} students, {instruments} instruments.", members.len()));
    page.notice(&verdict(members, absent, wood_plan.map(|(_, plan)| plan)));
    page.section("Instruments");
    page.for_the_screen(&export::scene::shared_style());
    page.cards(members.iter().enumerate().map(|(index, member)| card(member, index)));
    page.section("What is not right yet");
    for absent in absent {
        let (tone, word) = (Tone::Failure, "Not made".to_owned());
        page.notice(&Notice { tone, word, of: absent.student.clone(), lines: absent.why.clone() });
    }
    findings(&mut page, members)?;
    if let Some((stock, plan)) = wood_plan {
        page.section("Wood");
        wood(&mut page, members, stock, plan)?;
    }
    page.section("To buy");
    page.table("For the whole class", shopping)?;
    Ok(page.finish())
}

/// The first thing to know.
fn verdict(members: &[Member], absent: &[Absent], plan: Option<&StockPlan>) -> Notice {
    let count = |severity| members.iter().filter(|member| member.worst() == severity).count();
    let (failing, warned) = (count(Severity::Fail), count(Severity::Warn));
    let unserved = plan.map_or(0, |plan| plan.unserved.len());
    let mut lines = Vec::new();
    if !absent.is_empty() {
        lines.push(format!("{} are not made: see what is not right yet.", absent.len()));
    }
    if failing > 0 {
        lines.push(format!(
            "{failing} of {} plans fail a check and should be mended before wood is cut.",
            members.len()
        ));
    }
    if warned > 0 {
        lines.push(format!("{warned} of {} plans have warnings.", members.len()));
    }
    if unserved > 0 {
        lines.push(format!("{unserved} pieces find no wood in the stock list."));
    }
    let (tone, word) = match (failing + unserved + absent.len(), warned) {
        (0, 0) => (Tone::Good, "Ready"),
        (0, _) => (Tone::Warning, "Look again"),
        _ => (Tone::Failure, "Not ready"),
    };
    if lines.is_empty() {
        lines.push("Every plan holds.".into());
    }
    Notice { tone, word: word.into(), of: String::new(), lines }
}

fn card(member: &Member, index: usize) -> Card {
    let count = |severity| member.made.findings.iter().filter(|finding| finding.severity == severity).count();
    let told: Vec<String> = [(Severity::Fail, "fail"), (Severity::Warn, "warn"), (Severity::Note, "note")]
        .into_iter()
        .filter(|(severity, _)| count(*severity) > 0)
        .map(|(severity, word)| format!("{} {word}", count(severity)))
        .collect();
    let checks = if told.is_empty() { "all hold".into() } else { told.join(", ") };
    let mut rows = vec![("instrument".to_owned(), member.made.instrument.clone())];
    rows.extend(member.made.about.iter().cloned());
    if member.enrolment.quantity != 1 {
        rows.push(("quantity".into(), member.enrolment.quantity.to_string()));
    }
    rows.push(("checks".into(), checks));
    if !member.enrolment.note.is_empty() {
        rows.push(("note".into(), member.enrolment.note.clone()));
    }
    let link = &member.enrolment.link;
    let files = if link.is_empty() { Vec::new() } else { vec![link.clone()] };
    Card { title: member.tag(index), picture: member.made.picture.clone(), rows, files }
}

fn findings(page: &mut Page, members: &[Member]) -> Result<(), MakeFault> {
    let rows: Vec<Vec<String>> = members
        .iter()
        .enumerate()
        .flat_map(|(index, member)| {
            member.made.findings.iter().map(move |finding| {
                let ToldFinding { id, severity, sentence } = finding.clone();
                vec![member.tag(index), severity.word().to_owned(), id, sentence]
            })
        })
        .collect();
    if rows.is_empty() {
        page.paragraph("Nothing: every check of every plan holds.");
        return Ok(());
    }
    let heading = ["student", "how bad", "check", "what"].map(String::from).to_vec();
    page.table("What the checks found, student by student", &Table { heading, rows })?;
    Ok(())
}

fn wood(page: &mut Page, members: &[Member], stock: &StockList, plan: &StockPlan) -> Result<(), MakeFault> {
    let percent = |part: f64| format!("{:.0} %", part * 100.0);
    let rows: Vec<Vec<String>> = plan
        .tasks
        .iter()
        .map(|task| {
            let above = match task.above_least {
                Some(above) if above <= 0.0 => "proven: no plan is cheaper".to_owned(),
                Some(above) => format!("at most {:.1} % above the cheapest", above * 100.0),
                None => "not known".to_owned(),
            };
            vec![
                task.wood.to_owned(),
                task.thickness.to_string(),
                task.stock.to_string(),
                percent(task.used),
                above,
            ]
        })
        .collect();
    if !rows.is_empty() {
        let heading = ["wood", "thickness", "boards and sheets", "of it used", "how good the plan is"];
        let heading = heading.map(String::from).to_vec();
        page.table("How the wood is used", &Table { heading, rows })?;
    }
    let rows: Vec<Vec<String>> = plan
        .used()
        .into_iter()
        .map(|(kind, count)| vec![kind.key(), described(kind.of(stock)), count.to_string()])
        .collect();
    if !rows.is_empty() {
        let heading = ["stock", "what", "how many"].map(String::from).to_vec();
        page.table("What is taken from stock", &Table { heading, rows })?;
    }
    for unserved in &plan.unserved {
        let piece = unserved.wanted.of(members);
        let of = format!("{}, {}", members[unserved.wanted.member].tag(unserved.wanted.member), piece.title);
        let lines = vec![unserved.why.clone()];
        page.notice(&Notice { tone: Tone::Failure, word: "No wood".into(), of, lines });
    }
    Ok(())
}
