//! A class from a few documents: `class_papers STOCK FOLDER DOCUMENT...` makes what is made once for all of them.
//!
//! Every document named is one student's, called by the stem of its file; a document named again is worked out once.

use std::collections::BTreeMap;
use std::error::Error;
use std::path::Path;

use boxneck::spec::Document;
use boxneck::{Enrolment, Instrument, MakeOptions, Member, class_papers, with_files_of};

fn main() -> Result<(), Box<dyn Error>> {
    let mut arguments = std::env::args().skip(1);
    let usage = "expected STOCK FOLDER DOCUMENT...";
    let (stock, folder) = (arguments.next().ok_or(usage)?, arguments.next().ok_or(usage)?);
    let stock = Document::parse(&std::fs::read(stock)?).read_stock().into_result();
    let (stock, _) =
        stock.map_err(|faults| faults.iter().map(|fault| format!("{fault}\n")).collect::<String>())?;
    let mut members = Vec::new();
    let mut known: BTreeMap<String, Member> = BTreeMap::new();
    for path in arguments {
        let student = Path::new(&path).file_stem().unwrap_or_default().to_string_lossy().into_owned();
        let enrolment = Enrolment { student, quantity: 1, note: String::new(), link: String::new() };
        let member = match known.get(&path) {
            Some(member) => member.shared_with(enrolment),
            None => {
                let document = with_files_of(Document::parse(&std::fs::read(&path)?), Path::new(&path));
                Member::of(&Instrument::of(&document)?, enrolment)?
            }
        };
        known.insert(path, member.clone());
        members.push(member);
    }
    for file in class_papers("A class", &members, &[], Some(&stock), &MakeOptions::default())? {
        let path = Path::new(&folder).join(&file.path);
        std::fs::create_dir_all(path.parent().ok_or("a file lies in a folder")?)?;
        std::fs::write(path, file.bytes)?;
    }
    Ok(())
}
