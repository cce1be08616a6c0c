//! The sections of a scenario, each where it could be read.

use super::{Brief, Limits, Loss, RuleNote, ScenarioFile};
use crate::field::Field;
use crate::jet::JetSheet;
use crate::recovery::RecoveryPlan;
use crate::wind::{AirSheet, WindSheet};

/// The sections of a scenario that could be read.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Sections<'a> {
    pub format: Option<u32>,
    pub name: Option<&'a str>,
    pub notes: Option<&'a [String]>,
    pub date: Option<&'a str>,
    pub field: Option<&'a Field>,
    pub jet: Option<&'a JetSheet>,
    pub wind: Option<&'a WindSheet>,
    pub air: Option<&'a AirSheet>,
    pub loss: Option<&'a Loss>,
    pub recovery: Option<&'a RecoveryPlan>,
    pub limits: Option<&'a Limits>,
    pub rules: Option<&'a [RuleNote]>,
    pub brief: Option<&'a Brief>,
}

impl<'a> Sections<'a> {
    pub(super) fn of(file: &'a ScenarioFile, field: Option<&'a Field>) -> Self {
        Self {
            format: Some(file.peewit),
            name: Some(&file.name),
            notes: Some(&file.notes),
            date: Some(&file.date),
            field,
            jet: Some(&file.jet),
            wind: Some(&file.wind),
            air: Some(&file.air),
            loss: Some(&file.loss),
            recovery: Some(&file.recovery),
            limits: Some(&file.limits),
            rules: Some(&file.rules),
            brief: Some(&file.brief),
        }
    }
}
