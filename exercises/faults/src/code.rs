//! The codes: one list, from which everything that needs them follows.

use core::fmt::{self, Display, Formatter};

/// Writes the enum and its lists, so that a code is written in one place only.
macro_rules! codes {
    (faults { $($fault:ident => $fault_id:literal,)* } warnings { $($warning:ident => $warning_id:literal,)* }) => {
        /// A rule that a course can break. Its words are under `faults.<id>`.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        pub enum Code {
            $(#[doc = concat!("`", $fault_id, "`")] $fault,)*
            $(#[doc = concat!("`", $warning_id, "`, a warning")] $warning,)*
        }

        impl Code {
            /// The codes of all faults, by the groups in which their words are kept.
            pub const FAULTS: &[Self] = &[$(Self::$fault,)*];

            /// The codes of all warnings: the course is published, but its author should look at what they name.
            pub const WARNINGS: &[Self] = &[$(Self::$warning,)*];

            /// The code as authors read it: lower-case words joined by hyphens.
            #[must_use]
            pub const fn id(self) -> &'static str {
                match self {
                    $(Self::$fault => $fault_id,)*
                    $(Self::$warning => $warning_id,)*
                }
            }
        }
    };
}

impl Code {
    /// The codes of all faults, then those of all warnings.
    pub fn all() -> impl Iterator<Item = Self> {
        Self::FAULTS.iter().chain(Self::WARNINGS).copied()
    }

    /// The code with an id.
    #[must_use]
    pub fn find(id: &str) -> Option<Self> {
        Self::all().find(|code| code.id() == id)
    }

    /// Whether a course is published in spite of it.
    #[must_use]
    pub fn is_warning(self) -> bool {
        Self::WARNINGS.contains(&self)
    }
}

impl Display for Code {
    fn fmt(&self, f: &mut Formatter<'_>) -> fmt::Result {
        f.write_str(self.id())
    }
}

codes! {
    faults {
        CourseFolderMissing => "course-folder-missing",
        CourseNotAFolder => "course-not-a-folder",
        CourseFileMissing => "course-file-missing",
        CourseUnreadable => "course-unreadable",
        CourseSymlink => "course-symlink",
        CourseNotUtf8 => "course-not-utf8",
        CourseControlCharacter => "course-control-character",
        CourseFileTooLarge => "course-file-too-large",
        CourseUnexpectedFile => "course-unexpected-file",
        CourseUnexpectedFolder => "course-unexpected-folder",
        CourseWrongFolder => "course-wrong-folder",
        CourseUnportableName => "course-unportable-name",
        CourseReservedName => "course-reserved-name",
        CoursePathTooLong => "course-path-too-long",
        CourseNamesDifferByCase => "course-names-differ-by-case",
        CourseLanguages => "course-languages",
        CourseUnits => "course-units",
        CourseDecimalMark => "course-decimal-mark",
        CourseDate => "course-date",
        CourseColour => "course-colour",
        CourseColourFaint => "course-colour-faint",
        CourseLogo => "course-logo",
        CourseWithoutLessons => "course-without-lessons",
        CourseRepeatedLesson => "course-repeated-lesson",
        LessonNotInOrder => "lesson-not-in-order",
        CourseRepeatedId => "course-repeated-id",
        CourseIdsDifferByCase => "course-ids-differ-by-case",
        IdBadlyWritten => "id-badly-written",
        FormatUnknown => "format-unknown",
        TextEmpty => "text-empty",
        FrontMatterMissing => "front-matter-missing",
        FrontMatterUnclosed => "front-matter-unclosed",
        YamlSyntax => "yaml-syntax",
        YamlUnclosed => "yaml-unclosed",
        YamlApostrophe => "yaml-apostrophe",
        YamlInnerQuotes => "yaml-inner-quotes",
        YamlTab => "yaml-tab",
        YamlOddBlank => "yaml-odd-blank",
        YamlNoSpace => "yaml-no-space",
        YamlUneven => "yaml-uneven",
        YamlUnquotedFormula => "yaml-unquoted-formula",
        YamlUnquotedText => "yaml-unquoted-text",
        YamlUnknownKey => "yaml-unknown-key",
        YamlMissingKey => "yaml-missing-key",
        YamlRepeatedKey => "yaml-repeated-key",
        YamlTextCut => "yaml-text-cut",
        YamlWrongShape => "yaml-wrong-shape",
        YamlNotFinite => "yaml-not-finite",
        YamlAnchorOrTag => "yaml-anchor-or-tag",
        YamlTooDeep => "yaml-too-deep",
        YamlTooLong => "yaml-too-long",
        YamlEmpty => "yaml-empty",
        MarkdownRawHtml => "markdown-raw-html",
        MarkdownTooDeep => "markdown-too-deep",
        MarkdownLookalike => "markdown-lookalike",
        MarkdownRowUneven => "markdown-row-uneven",
        HeadingOfFirstLevel => "heading-of-first-level",
        HeadingSkipsLevel => "heading-skips-level",
        HeadingNotHere => "heading-not-here",
        LinkBroken => "link-broken",
        LinkWithoutText => "link-without-text",
        LinkAddressRefused => "link-address-refused",
        LinkAnchorUnknown => "link-anchor-unknown",
        TermUnknown => "term-unknown",
        TermRepeatedWording => "term-repeated-wording",
        LessonUnknown => "lesson-unknown",
        RelationUnknown => "relation-unknown",
        TableUnknown => "table-unknown",
        RecipeUnknown => "recipe-unknown",
        IdTaken => "id-taken",
        ObjectiveUnknown => "objective-unknown",
        LessonWithoutObjectives => "lesson-without-objectives",
        RecipeWithoutObjectives => "recipe-without-objectives",
        ImageWithoutAlternative => "image-without-alternative",
        ImageMissing => "image-missing",
        ImageLeavesCourse => "image-leaves-course",
        ImageKind => "image-kind",
        ImageNotWhatItSays => "image-not-what-it-says",
        ImageDamaged => "image-damaged",
        ImageTooManyPixels => "image-too-many-pixels",
        ImageTooManyBytes => "image-too-many-bytes",
        ImageTurned => "image-turned",
        PictureText => "picture-text",
        PictureAreasCount => "picture-areas-count",
        PictureShapeOne => "picture-shape-one",
        PictureShapeFlat => "picture-shape-flat",
        PictureAreaOutside => "picture-area-outside",
        PictureAreasOverlap => "picture-areas-overlap",
        SvgElement => "svg-element",
        SvgAttribute => "svg-attribute",
        SvgValue => "svg-value",
        SvgDoctype => "svg-doctype",
        SvgUnreadable => "svg-unreadable",
        SvgWithoutSize => "svg-without-size",
        SvgTooFull => "svg-too-full",
        FileMissing => "file-missing",
        FileKind => "file-kind",
        FileNotWhatItSays => "file-not-what-it-says",
        FileTooLarge => "file-too-large",
        MediaNotPlayed => "media-not-played",
        CaptionsHead => "captions-head",
        CaptionsTime => "captions-time",
        CaptionsOrder => "captions-order",
        CaptionsMarkup => "captions-markup",
        CaptionsEmpty => "captions-empty",
        SignalWordUnknown => "signal-word-unknown",
        SignalWordPlain => "signal-word-plain",
        SignalWithoutText => "signal-without-text",
        NoteUnknown => "note-unknown",
        NoteNotHere => "note-not-here",
        NoteWithoutText => "note-without-text",
        NumberUnsourced => "number-unsourced",
        ScenarioName => "scenario-name",
        ScenarioValue => "scenario-value",
        ScenarioUnknown => "scenario-unknown",
        ScenarioUnused => "scenario-unused",
        FormulaUnreadable => "formula-unreadable",
        FormulaUnclosed => "formula-unclosed",
        FormulaTooLarge => "formula-too-large",
        FormulaWithoutWords => "formula-without-words",
        BlockUnknown => "block-unknown",
        BlockNotHere => "block-not-here",
        BlockUnclosed => "block-unclosed",
        BlockNameless => "block-nameless",
        BlockFileNamesOne => "block-file-names-one",
        ComputedUnclosed => "computed-unclosed",
        ComputedWithoutUnit => "computed-without-unit",
        ComputedNoValue => "computed-no-value",
        ComputedInFormula => "computed-in-formula",
        UnitUnknown => "unit-unknown",
        UnitOfAnotherKind => "unit-of-another-kind",
        UnitForProduct => "unit-for-product",
        WorkUnknownInput => "work-unknown-input",
        WorkMissingInput => "work-missing-input",
        WorkUnreadable => "work-unreadable",
        WorkUnknownUnit => "work-unknown-unit",
        WorkWrongKind => "work-wrong-kind",
        WorkWrongChoice => "work-wrong-choice",
        WorkOutOfRange => "work-out-of-range",
        WorkOutOfOrder => "work-out-of-order",
        WorkNoResult => "work-no-result",
        FigureUnknown => "figure-unknown",
        FigureMissingParameter => "figure-missing-parameter",
        FigureParameterUnreadable => "figure-parameter-unreadable",
        FigureWrongKind => "figure-wrong-kind",
        FigureOutOfRange => "figure-out-of-range",
        FigureOutOfOrder => "figure-out-of-order",
        FigurePlace => "figure-place",
        FigurePlaceNotHere => "figure-place-not-here",
        FormulaCharacter => "formula-character",
        FormulaNumber => "formula-number",
        FormulaSyntax => "formula-syntax",
        FormulaDepth => "formula-depth",
        FormulaLong => "formula-long",
        FormulaArgumentName => "formula-argument-name",
        FormulaUnknownRelation => "formula-unknown-relation",
        FormulaUnknownName => "formula-unknown-name",
        FormulaUnknownInput => "formula-unknown-input",
        FormulaUnknownOutput => "formula-unknown-output",
        FormulaUnknownChoice => "formula-unknown-choice",
        FormulaMissingInput => "formula-missing-input",
        FormulaRepeatedInput => "formula-repeated-input",
        FormulaArgumentKind => "formula-argument-kind",
        FormulaKind => "formula-kind",
        FormulaGaugeProduct => "formula-gauge-product",
        FormulaScale => "formula-scale",
        FormulaPower => "formula-power",
        FormulaPowerOfUnit => "formula-power-of-unit",
        FormulaExponent => "formula-exponent",
        FormulaResultKind => "formula-result-kind",
        FormulaChoice => "formula-choice",
        FormulaText => "formula-text",
        FormulaQuote => "formula-quote",
        RelationTaken => "relation-taken",
        RelationCircle => "relation-circle",
        RelationDepth => "relation-depth",
        RelationInputs => "relation-inputs",
        RelationInputUnused => "relation-input-unused",
        RelationKind => "relation-kind",
        RelationRange => "relation-range",
        RelationResultUnit => "relation-result-unit",
        RelationSafeSide => "relation-safe-side",
        RelationStatus => "relation-status",
        RelationSymbol => "relation-symbol",
        RelationFormulas => "relation-formulas",
        RelationCheckInput => "relation-check-input",
        RelationCheckValue => "relation-check-value",
        RelationCheckRefused => "relation-check-refused",
        RelationCheckWrong => "relation-check-wrong",
        RecipeFormat => "recipe-format",
        RecipeLevel => "recipe-level",
        RecipeAsksNothing => "recipe-asks-nothing",
        RecipeNoQuestion => "recipe-no-question",
        RecipeUnknownSection => "recipe-unknown-section",
        RecipeRepeatedSection => "recipe-repeated-section",
        RecipeEmptySection => "recipe-empty-section",
        RecipeTextBeforeSection => "recipe-text-before-section",
        RecipeHoleUnreadable => "recipe-hole-unreadable",
        RecipeStepsNotAlone => "recipe-steps-not-alone",
        RecipeUnknownHole => "recipe-unknown-hole",
        RecipeUnknownSteps => "recipe-unknown-steps",
        RecipeName => "recipe-name",
        RecipeRepeatedName => "recipe-repeated-name",
        RecipeDrawForm => "recipe-draw-form",
        RecipeDerivedNotRounded => "recipe-derived-not-rounded",
        RecipeSystemsDiffer => "recipe-systems-differ",
        RecipeRange => "recipe-range",
        RecipeRangeUnit => "recipe-range-unit",
        RecipeRangeBackwards => "recipe-range-backwards",
        RecipeRangeStep => "recipe-range-step",
        RecipeRangeTooMany => "recipe-range-too-many",
        RecipeChooseNothing => "recipe-choose-nothing",
        RecipeChooseBlank => "recipe-choose-blank",
        RecipeChooseUnreadable => "recipe-choose-unreadable",
        RecipeChooseKinds => "recipe-choose-kinds",
        RecipeGrid => "recipe-grid",
        RecipeForm => "recipe-form",
        RecipeNoAnswer => "recipe-no-answer",
        RecipeNoUnit => "recipe-no-unit",
        RecipeUnknownUnit => "recipe-unknown-unit",
        RecipeUnitKind => "recipe-unit-kind",
        RecipeWithin => "recipe-within",
        RecipeLimit => "recipe-limit",
        RecipeAlsoRightWhen => "recipe-also-right-when",
        RecipeBeyondWithoutLimit => "recipe-beyond-without-limit",
        RecipeMistakeUnexplained => "recipe-mistake-unexplained",
        RecipeMistakeKind => "recipe-mistake-kind",
        RecipeStrayMistake => "recipe-stray-mistake",
        RecipeKeyMisplaced => "recipe-key-misplaced",
        RecipeLabelHole => "recipe-label-hole",
        RecipeTooLarge => "recipe-too-large",
        RecipeOptionsFew => "recipe-options-few",
        RecipeOptionsRight => "recipe-options-right",
        RecipeOptionsAlike => "recipe-options-alike",
        RecipeOptionWords => "recipe-option-words",
        RecipeUnitOfWords => "recipe-unit-of-words",
        RecipeNoStatement => "recipe-no-statement",
        RecipeNoTruth => "recipe-no-truth",
        RecipeItemsCount => "recipe-items-count",
        RecipeItemsBy => "recipe-items-by",
        RecipeHighestOfWords => "recipe-highest-of-words",
        RecipePairsCount => "recipe-pairs-count",
        RecipeNoFigure => "recipe-no-figure",
        RecipeFigureUnfit => "recipe-figure-unfit",
        RecipeFigureParameter => "recipe-figure-parameter",
        RecipeFigureLacks => "recipe-figure-lacks",
        RecipePartUnknown => "recipe-part-unknown",
        RecipePartRepeated => "recipe-part-repeated",
        RecipeRound => "recipe-round",
        RecipeRoundStep => "recipe-round-step",
        RecipeRoundSide => "recipe-round-side",
        RecipeRoundSafe => "recipe-round-safe",
        RecipeRoundUnsafe => "recipe-round-unsafe",
        RecipeUsualRange => "recipe-usual-range",
        RecipeUnsafeRight => "recipe-unsafe-right",
        RecipeUnsafeUnexplained => "recipe-unsafe-unexplained",
        RecipeUnsafeWithoutLimit => "recipe-unsafe-without-limit",
        RecipeTableSize => "recipe-table-size",
        RecipeTableColumnIdle => "recipe-table-column-idle",
        RecipeTableCellMissing => "recipe-table-cell-missing",
        RecipeTableCellUnknown => "recipe-table-cell-unknown",
        RecipeTableCellForm => "recipe-table-cell-form",
        RecipeTableGiven => "recipe-table-given",
        RecipeTableAsksNothing => "recipe-table-asks-nothing",
        RecipeTableReason => "recipe-table-reason",
        RecipeTableAllMeasured => "recipe-table-all-measured",
        ProofNeverMet => "proof-never-met",
        ProofNoValue => "proof-no-value",
        ProofRightOptions => "proof-right-options",
        ProofAllOrNone => "proof-all-or-none",
        ProofTie => "proof-tie",
        ProofNoFigure => "proof-no-figure",
        ProofFromUnmeasured => "proof-from-unmeasured",
        ProofMustHold => "proof-must-hold",
        ProofUnusualAnswer => "proof-unusual-answer",
        ProofImpossible => "proof-impossible",
        ProofShownAnswerWrong => "proof-shown-answer-wrong",
        ProofMistakeHidden => "proof-mistake-hidden",
        ProofMistakeAlsoRight => "proof-mistake-also-right",
        ProofMistakesAlike => "proof-mistakes-alike",
        ProofRepeats => "proof-repeats",
        ProofAbsurdDigits => "proof-absurd-digits",
        ProofLongStatement => "proof-long-statement",
        ProofOptionsAlike => "proof-options-alike",
        ProofOutsideUsualRange => "proof-outside-usual-range",
        ProofUsualRangeWide => "proof-usual-range-wide",
    }
    warnings {
        ObjectiveUnpractised => "objective-unpractised",
        RelationUnchecked => "relation-unchecked",
        TermUnexplained => "term-unexplained",
        LessonPractisesAhead => "lesson-practises-ahead",
        ImageUnused => "image-unused",
        FileUnused => "file-unused",
        MediaWithoutCaptions => "media-without-captions",
        PictureAreaSmall => "picture-area-small",
        RecipeDrawOfOneSystem => "recipe-draw-of-one-system",
        RecipeDrawUnused => "recipe-draw-unused",
        RecipeNamesNoDanger => "recipe-names-no-danger",
        RecipeSystemsFar => "recipe-systems-far",
        RecipeSideOfOtherSystem => "recipe-side-of-other-system",
        RecipeTypedNumber => "recipe-typed-number",
        RecipeWithoutWorking => "recipe-without-working",
        RecipeLabelNamesPart => "recipe-label-names-part",
        LessonWithoutBody => "lesson-without-body",
        CourseRepeatedTitle => "course-repeated-title",
        CourseLanguageOfPages => "course-language-of-pages",
        TextInCurlyQuotes => "text-in-curly-quotes",
    }
}

#[cfg(test)]
mod tests {
    use super::Code;

    #[test]
    fn a_variant_is_named_as_its_id() {
        for code in Code::all() {
            let words = code.id().split('-').map(|word| word[..1].to_uppercase() + &word[1..]);
            assert_eq!(words.collect::<String>(), format!("{code:?}"));
        }
    }

    #[test]
    fn a_code_is_found_by_its_id() {
        assert!(Code::all().all(|code| Code::find(code.id()) == Some(code)));
        assert_eq!(Code::find("no-such"), None);
    }
}
