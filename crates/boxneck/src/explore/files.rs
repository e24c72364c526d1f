//! Which files does the answer to a question about plans become?

use std::collections::BTreeMap;

use export::ExportFault;
use export::table::{self, Table};

use super::answer::Answer;
use super::measure::PlanMeasure;
use super::plan::Plan;
use super::web_page::web_page;
use crate::make::{BuiltFile, MakeOptions};
use crate::manifest::{MANIFEST, Manifest, document_sha256, options_sha256};

impl Answer {
    /// What a plan that was worked out measures; nothing for what was not asked about.
    #[must_use]
    pub fn value(&self, plan: &Plan, measure: &PlanMeasure) -> Option<f64> {
        let place = self.measures.iter().position(|other| *other == measure)?;
        plan.values.get(place).copied().flatten()
    }

    /// Every plan that was worked out, the best first: its values, what it measures, and what it does not hold.
    #[must_use]
    pub fn table(&self) -> Table {
        let mut heading: Vec<String> = vec!["rank".into()];
        heading.extend(self.axes.iter().map(|axis| axis.key.clone()));
        heading.extend(
            self.measures
                .iter()
                .map(|measure| format!("{} {}", measure.name, measure.unit.word()).trim_end().to_owned()),
        );
        heading.extend(["warnings".into(), "does not hold".into()]);
        let rows = self
            .order
            .iter()
            .enumerate()
            .map(|(rank, place)| self.row(rank + 1, &self.plans[*place]))
            .collect();
        Table { heading, rows }
    }

    fn row(&self, rank: usize, plan: &Plan) -> Vec<String> {
        let mut row = vec![rank.to_string()];
        row.extend(
            self.axes.iter().zip(&plan.places).map(|(axis, place)| axis.values[usize::from(*place)].clone()),
        );
        row.extend(self.measures.iter().map(|measure| {
            self.value(plan, measure).map(|value| measure.unit.number(value)).unwrap_or_default()
        }));
        row.push(if plan.is_instrument { plan.warns.to_string() } else { String::new() });
        row.push(match (plan.is_instrument, plan.holds()) {
            (false, _) => "no instrument".to_owned(),
            (true, true) => String::new(),
            (true, false) => self.broken(plan).iter().map(ToString::to_string).collect::<Vec<_>>().join("; "),
        });
        row
    }

    /// The files of the answer, `manifest.json` last: each plan that is told as a document, what these
    /// name, the table of all plans, and a page.
    ///
    /// # Errors
    ///
    /// [`ExportFault`] for what a format cannot hold.
    pub fn files(&self) -> Result<Vec<BuiltFile>, ExportFault> {
        let mut files: Vec<BuiltFile> = Vec::new();
        for (number, told) in self.told.iter().enumerate() {
            let text = told.document.to_text().expect("a document that was read takes values that were read");
            files.push(BuiltFile { path: plan_name(number), bytes: text.into_bytes() });
        }
        // What the plans name goes with them, so that each can be made where it lies.
        let named: BTreeMap<&str, &[u8]> =
            self.told.iter().flat_map(|told| told.document.given_files()).collect();
        files.extend(
            named.into_iter().map(|(name, bytes)| BuiltFile { path: name.into(), bytes: bytes.into() }),
        );
        let page = web_page(self, &self.name)?;
        files.push(BuiltFile { path: "plans.html".into(), bytes: page.into_bytes() });
        files.push(BuiltFile { path: "plans.csv".into(), bytes: table::write(&self.table())?.into_bytes() });
        let options = MakeOptions::default();
        let document_sha256 = document_sha256(self.document.source(), &self.document);
        let manifest =
            Manifest::of(&files, document_sha256, options_sha256(&options)).with_drawings(&options);
        files.push(BuiltFile { path: MANIFEST.into(), bytes: manifest.to_bytes() });
        Ok(files)
    }
}

/// What the document of a plan is called, by its place among those that are told.
pub(super) fn plan_name(number: usize) -> String {
    format!("plan-{}.toml", number + 1)
}
