//! Are the jets that a person keeps there again, as they were?

use super::*;
use crate::jet::JetSheet;

#[test]
fn a_jet_is_kept_under_its_name_and_found_again_at_the_next_start() {
    let folder = folder();
    let mut stage = Stage::open(demo(), folder.path());
    let jet = stage.session.draft.file().jet.clone();
    stage.ask(FileCommand::KeepJet);
    // Another field on the screen changes nothing of them, and neither does a file that can't be understood.
    stage.ask(FileCommand::New);
    stage.session.refuse(Vec::new(), None);
    assert_eq!(stage.session.jets.kept, std::slice::from_ref(&jet));
    drop(stage);
    let mut stage = Stage::open(demo(), folder.path());
    assert_eq!(stage.session.jets.kept, std::slice::from_ref(&jet));
    // What is in the file is the block of a scenario.
    let text = std::fs::read_to_string(folder.path().join("jets").join(file_name(&jet.name))).unwrap();
    assert_eq!(serde_json::from_str::<JetSheet>(&text).unwrap(), stage.session.draft.file().jet);
    // One of the same name takes its place.
    let mut file = stage.session.draft.file().clone();
    file.jet.cells = 8;
    stage.session.edit(crate::app::session::Change { what: "change the pack".into(), file });
    stage.ask(FileCommand::KeepJet);
    assert_eq!(stage.session.jets.kept.iter().map(|jet| jet.cells).collect::<Vec<_>>(), [8]);
    stage.ask(FileCommand::DropJet(jet.name.clone()));
    assert!(stage.session.jets.kept.is_empty());
    assert_eq!(std::fs::read_dir(folder.path().join("jets")).unwrap().count(), 0);
    stage.ask(FileCommand::BringJetBack);
    drop(stage);
    assert_eq!(Stage::open(demo(), folder.path()).session.jets.kept[0].cells, 8);
}

#[test]
fn a_file_that_is_no_jet_is_named_and_left_alone() {
    let folder = folder();
    let path = folder.path().join("jets").join("shopping.json");
    std::fs::create_dir(path.parent().unwrap()).unwrap();
    std::fs::write(&path, "{\"milk\": 2}").unwrap();
    let stage = Stage::open(demo(), folder.path());
    assert!(stage.session.jets.kept.is_empty() && stage.session.word.contains("shopping.json"));
    assert!(path.exists());
}
