import { accept } from "./acceptance";
import { foundIn, nameOfRule } from "./found";
import type { Problem } from "../engine/outcome";
import type { InSlices } from "../engine/slices";
import type { Row } from "../engine/snapshot";
import type { Fix } from "../text/fix";
import type { Span } from "../text/span";
import type { AnyProblem, Code, Finding, FindingContext, Severity, Site, Wording } from "./finding";
import { acceptIdle } from "./acceptIdle";
import { acceptUnknown } from "./acceptUnknown";
import { assumptionUnused } from "./assumptionUnused";
import { caution } from "./caution";
import { choiceOff } from "./choiceOff";
import { choiceOvertaken } from "./choiceOvertaken";
import { choiceSeries } from "./choiceSeries";
import { choiceShort } from "./choiceShort";
import { correlationInputs } from "./correlationInputs";
import { correlationTogether } from "./correlationTogether";
import { functionArguments } from "./functionArguments";
import { functionArgumentUnit } from "./functionArgumentUnit";
import { counterLimits } from "./counterLimits";
import { functionDomain } from "./functionDomain";
import { functionBody } from "./functionBody";
import { functionRecursive } from "./functionRecursive";
import { functionTooLarge } from "./functionTooLarge";
import { solutionSeveral } from "./solutionSeveral";
import { solutionNone } from "./solutionNone";
import { solutionJumps } from "./solutionJumps";
import { solutionUnused } from "./solutionUnused";
import { solutionBracket } from "./solutionBracket";
import { handbookShadowed, handbookUnreadable } from "./handbookTroubles";
import { laterNotComputed } from "./laterNotComputed";
import { listLengths } from "./listLengths";
import { listNeeded } from "./listNeeded";
import { listUndecided } from "./listUndecided";
import { tableEmptyFile } from "./tableEmptyFile";
import { tableLoop } from "./tableLoop";
import { tableNotUtf8 } from "./tableNotUtf8";
import { tablePartEmpty } from "./tablePartEmpty";
import { tableRepeatedRow } from "./tableRepeatedRow";
import { tableUnknownPart } from "./tableUnknownPart";
import { listUnexpected } from "./listUnexpected";
import { lookupKeys } from "./lookupKeys";
import { lookupMissing } from "./lookupMissing";
import { literalBandNeeded } from "./literalBandNeeded";
import { literalCoverage } from "./literalCoverage";
import { literalFewReadings } from "./literalFewReadings";
import { literalOrder } from "./literalOrder";
import { literalPointsOrShare } from "./literalPointsOrShare";
import { literalTypicalOutside } from "./literalTypicalOutside";
import { literalUnreadable } from "./literalUnreadable";
import { measurementDisjoint, measurementOutside } from "./measurementOff";
import { measurementReplaces } from "./measurementReplaces";
import { nameCircular } from "./nameCircular";
import { nameDoubled } from "./nameDoubled";
import { nameLookAlike } from "./nameLookAlike";
import { nameNative } from "./nameNative";
import { nameUnknown } from "./nameUnknown";
import { nameWrongKind } from "./nameWrongKind";
import { pieceTooMany } from "./pieceTooMany";
import { pieceCount } from "./pieceCount";
import { pieceItem } from "./pieceItem";
import { pieceSame } from "./pieceSame";
import { networkBetween, networkKind, networkResistance } from "./networkBetween";
import { networkColumn, networkHeader } from "./networkColumn";
import { networkDeadEnd, networkEnd, networkFloating, networkReference } from "./networkNodes";
import { networkNoSource, networkSourceLoop, networkTooMeshed } from "./networkSources";
import { noteAtMargin } from "./noteAtMargin";
import { noteAfterParagraph, noteInList } from "./noteTraps";
import { rangeNoEnd } from "./rangeNoEnd";
import { rangeUndefined } from "./rangeUndefined";
import { ruleNotACondition } from "./ruleNotACondition";
import { ruleFails, ruleFailsAtLimits, ruleUndecided } from "./ruleStates";
import { syntaxAmbiguousFraction } from "./syntaxAmbiguousFraction";
import { syntaxClauseNotHere } from "./syntaxClauseNotHere";
import { syntaxDashBetweenNumbers } from "./syntaxDashBetweenNumbers";
import { syntaxDecimalComma } from "./syntaxDecimalComma";
import { syntaxImpossibleDate } from "./syntaxImpossibleDate";
import { syntaxInvisibleCharacter } from "./syntaxInvisibleCharacter";
import { syntaxJoinsNumbers } from "./syntaxJoinsNumbers";
import { syntaxLiteralExpected } from "./syntaxLiteralExpected";
import { syntaxMissingOperator } from "./syntaxMissingOperator";
import { syntaxMixedNumber } from "./syntaxMixedNumber";
import { syntaxNeedsBrackets } from "./syntaxNeedsBrackets";
import { syntaxNegativeTolerance } from "./syntaxNegativeTolerance";
import { syntaxNumberDot } from "./syntaxNumberDot";
import { syntaxOtherSign } from "./syntaxOtherSign";
import { syntaxOutOfRange } from "./syntaxOutOfRange";
import { syntaxParallelNeedsBrackets } from "./syntaxParallelNeedsBrackets";
import { syntaxParallelOfConditions } from "./syntaxParallelOfConditions";
import { syntaxPercentIsUnit } from "./syntaxPercentIsUnit";
import { syntaxPlusMinusAfterQuantity } from "./syntaxPlusMinusAfterQuantity";
import { syntaxQuotes } from "./syntaxQuotes";
import { syntaxRepeatedClause } from "./syntaxRepeatedClause";
import { syntaxReservedName } from "./syntaxReservedName";
import { syntaxReservedWord } from "./syntaxReservedWord";
import { syntaxSecondEquals } from "./syntaxSecondEquals";
import { syntaxSemicolon } from "./syntaxSemicolon";
import { syntaxToleranceOrUnit } from "./syntaxToleranceOrUnit";
import { syntaxTooDeep } from "./syntaxTooDeep";
import { syntaxUnclosedBracket } from "./syntaxUnclosedBracket";
import { syntaxUnclosedQuote } from "./syntaxUnclosedQuote";
import { syntaxUnexpected } from "./syntaxUnexpected";
import { syntaxUnitNeedsBrackets } from "./syntaxUnitNeedsBrackets";
import { syntaxUnknownStatement } from "./syntaxUnknownStatement";
import { syntaxUnnamedValue } from "./syntaxUnnamedValue";
import { syntaxWholeNumberExpected } from "./syntaxWholeNumberExpected";
import { temperaturePair } from "./temperaturePair";
import { temperaturePoint } from "./temperaturePoint";
import { temperatureRelative } from "./temperatureRelative";
import { tableCell } from "./tableCell";
import { tableComputedCell } from "./tableComputedCell";
import { tableDoubledRow } from "./tableDoubledRow";
import { tableEmptyCell } from "./tableEmptyCell";
import { tableFile } from "./tableFile";
import { tableUnclosedQuote } from "./tableUnclosedQuote";
import { tableHeader } from "./tableHeader";
import { tableMergedCell } from "./tableMergedCell";
import { tableMixed } from "./tableMixed";
import { tableNative } from "./tableNative";
import { tableRagged } from "./tableRagged";
import { tableRowLikeColumn } from "./tableRowLikeColumn";
import { tableRows } from "./tableRows";
import { tableUnknown } from "./tableUnknown";
import { textNotUtf8 } from "./textNotUtf8";
import { textUnexpected } from "./textUnexpected";
import { truthNeeded } from "./truthNeeded";
import { truthUnexpected } from "./truthUnexpected";
import { unitExponent } from "./unitExponent";
import { unitMismatch } from "./unitMismatch";
import { unitNothingDropped } from "./unitNothingDropped";
import { unitRatioAdded } from "./unitRatioAdded";
import { unitRatioNeeded } from "./unitRatioNeeded";
import { unitShownIn } from "./unitShownIn";
import { unitTakenName } from "./unitTakenName";
import { unitTurns } from "./unitTurns";
import { unitUnknown } from "./unitUnknown";
import { useSelf, useOutside, useMissing, useUnreadable, useNotANote } from "./useTroubles";
import { valueUndefined } from "./valueUndefined";

/** A fix, and the finding that it answers. */
export interface FindingFix {
  readonly finding: Finding;
  readonly fix: Fix;
}

/** All that is to be said of a note, in the order of its text. */
export function findingsOf(context: FindingContext): readonly Finding[] {
  return casesOf(context).map(({ finding }) => finding);
}

/**
 * What answers the findings that touch a span. Costly: some fixes are tried before they are offered.
 * @param cases all that is found in the note, where that is known
 */
export function* fixesAt(
  context: FindingContext,
  span: Span,
  cases: readonly Case[] = casesOf(context),
): InSlices<readonly FindingFix[]> {
  const touching = cases.filter((each) => {
    const at = placeOf(each);
    return at.start <= span.end && span.start <= at.end;
  });
  const found: FindingFix[] = [];
  for (const { finding, problem, row } of touching) {
    const fixes = wordingOf(problem).fixes?.(problem, siteOf(row, context)) ?? [];
    const all = "next" in fixes ? yield* fixes : fixes;
    found.push(...all.slice(0, MOST_FIXES).map((fix) => ({ finding, fix })));
  }
  return found;
}

/** What a code means. */
export interface ReferenceEntry {
  readonly code: Code;
  /** The gravest it can have. */
  readonly severity: Severity;
  readonly reference: string;
}

/** More fixes than this are a list to be read, and no help. */
const MOST_FIXES = 3;

/** A wording is asked about problems of its own code only, which the table below ensures. */
type Asked = Wording<Code> & {
  readonly severityOf?: (problem: AnyProblem, site: Site) => Severity;
  readonly message: (problem: AnyProblem, site: Site) => string;
};

/** A finding, and what it is of. */
export interface Case {
  readonly finding: Finding;
  readonly problem: AnyProblem;
  readonly row?: Row;
}

/** The findings of a note, in the order of its text, each with what it is of. */
export function casesOf(context: FindingContext): readonly Case[] {
  const { snapshot } = context;
  const cases = foundIn(context, isError).map(({ problem, row }): Case => worded(problem, row, context));
  const acceptable = cases.map(({ finding, problem, row }) => {
    const name = "rule" in problem && problem.rule.word === "should" && row ? nameOfRule(row) : undefined;
    return { finding, ...(name === undefined ? {} : { rule: `should.${name}` }) };
  });
  const rules = snapshot.rows.flatMap((row) => {
    const name = row.statement.kind === "rule" && row.statement.word === "should" ? nameOfRule(row) : undefined;
    return name === undefined ? [] : [`should.${name}`];
  });
  const { findings, problems } = accept(acceptable, snapshot.rows, CODES, rules);
  const all = [
    ...cases.map((each, i) => ({ ...each, finding: findings[i] })),
    ...problems.map(({ problem, row }) => worded(problem, row, context)),
  ];
  return all.sort((a, b) => byPlace(a.finding.span, b.finding.span));
}

/** Where a finding is answered: what is said of a rule as a whole, anywhere on it. */
function placeOf({ finding, row, problem }: Case): Span {
  if (!row || !("rule" in problem)) return finding.span;
  return { start: row.start, end: row.start + row.statement.text.length };
}

function worded(problem: AnyProblem, row: Row | undefined, context: FindingContext): Case {
  const wording = wordingOf(problem);
  const site = siteOf(row, context);
  const related = wording.related?.(problem, site) ?? [];
  const finding: Finding = {
    code: problem.code,
    severity: wording.severityOf?.(problem, site) ?? wording.severity,
    span: row ? context.snapshot.spanOf(row, problem.span) : problem.span,
    message: wording.message(problem, site),
    ...(related.length > 0 ? { related } : {}),
  };
  return { finding, problem, ...(row ? { row } : {}) };
}

function isError(problem: Problem): boolean {
  return wordingOf(problem).severity === "error";
}

function byPlace(a: Span, b: Span): number {
  return a.start - b.start || a.end - b.end;
}

function siteOf(row: Row | undefined, context: FindingContext): Site {
  return { row, context };
}

function wordingOf(problem: AnyProblem): Asked {
  return WORDINGS[problem.code] as Asked;
}

/** The catalogue. A code without a wording does not compile. */
const WORDINGS: { readonly [C in Code]: Wording<C> } = {
  "syntax.unexpected": syntaxUnexpected,
  "syntax.unknownStatement": syntaxUnknownStatement,
  "syntax.unnamedValue": syntaxUnnamedValue,
  "syntax.reservedName": syntaxReservedName,
  "syntax.reservedWord": syntaxReservedWord,
  "syntax.otherSign": syntaxOtherSign,
  "syntax.secondEquals": syntaxSecondEquals,
  "syntax.decimalComma": syntaxDecimalComma,
  "syntax.negativeTolerance": syntaxNegativeTolerance,
  "syntax.numberDot": syntaxNumberDot,
  "syntax.dashBetweenNumbers": syntaxDashBetweenNumbers,
  "syntax.plusMinusAfterQuantity": syntaxPlusMinusAfterQuantity,
  "syntax.joinsNumbers": syntaxJoinsNumbers,
  "syntax.parallelOfConditions": syntaxParallelOfConditions,
  "syntax.parallelNeedsBrackets": syntaxParallelNeedsBrackets,
  "syntax.needsBrackets": syntaxNeedsBrackets,
  "syntax.percentIsUnit": syntaxPercentIsUnit,
  "syntax.missingOperator": syntaxMissingOperator,
  "syntax.mixedNumber": syntaxMixedNumber,
  "syntax.ambiguousFraction": syntaxAmbiguousFraction,
  "syntax.unitNeedsBrackets": syntaxUnitNeedsBrackets,
  "syntax.toleranceOrUnit": syntaxToleranceOrUnit,
  "syntax.invisibleCharacter": syntaxInvisibleCharacter,
  "syntax.quotes": syntaxQuotes,
  "syntax.unclosedQuote": syntaxUnclosedQuote,
  "syntax.unclosedBracket": syntaxUnclosedBracket,
  "syntax.semicolon": syntaxSemicolon,
  "syntax.impossibleDate": syntaxImpossibleDate,
  "syntax.repeatedClause": syntaxRepeatedClause,
  "syntax.clauseNotHere": syntaxClauseNotHere,
  "syntax.literalExpected": syntaxLiteralExpected,
  "syntax.wholeNumberExpected": syntaxWholeNumberExpected,
  "syntax.outOfRange": syntaxOutOfRange,
  "syntax.tooDeep": syntaxTooDeep,
  "name.unknown": nameUnknown,
  "name.doubled": nameDoubled,
  "name.lookAlike": nameLookAlike,
  "name.circular": nameCircular,
  "name.wrongKind": nameWrongKind,
  "name.native": nameNative,
  "unit.mismatch": unitMismatch,
  "unit.ratioAdded": unitRatioAdded,
  "unit.unknown": unitUnknown,
  "unit.shownIn": unitShownIn,
  "unit.ratioNeeded": unitRatioNeeded,
  "unit.exponent": unitExponent,
  "unit.nothingDropped": unitNothingDropped,
  "unit.takenName": unitTakenName,
  "unit.turns": unitTurns,
  "temperature.point": temperaturePoint,
  "temperature.pair": temperaturePair,
  "temperature.relative": temperatureRelative,
  "literal.order": literalOrder,
  "literal.typicalOutside": literalTypicalOutside,
  "literal.pointsOrShare": literalPointsOrShare,
  "literal.bandNeeded": literalBandNeeded,
  "literal.coverage": literalCoverage,
  "literal.fewReadings": literalFewReadings,
  "literal.unreadable": literalUnreadable,
  "value.undefined": valueUndefined,
  "piece.item": pieceItem,
  "piece.same": pieceSame,
  "piece.count": pieceCount,
  "piece.tooMany": pieceTooMany,
  "range.noEnd": rangeNoEnd,
  "correlation.inputs": correlationInputs,
  "correlation.together": correlationTogether,
  "range.undefined": rangeUndefined,
  "function.domain": functionDomain,
  "function.recursive": functionRecursive,
  "function.arguments": functionArguments,
  "function.argumentUnit": functionArgumentUnit,
  "function.tooLarge": functionTooLarge,
  "solution.several": solutionSeveral,
  "solution.none": solutionNone,
  "solution.jumps": solutionJumps,
  "solution.unused": solutionUnused,
  "solution.bracket": solutionBracket,
  "function.body": functionBody((problem, row, context) => wordingOf(problem).message(problem, { row, context })),
  "truth.needed": truthNeeded,
  "truth.unexpected": truthUnexpected,
  "counter.limits": counterLimits,
  "lookup.keys": lookupKeys,
  "lookup.missing": lookupMissing,
  "list.unexpected": listUnexpected,
  "list.lengths": listLengths,
  "list.needed": listNeeded,
  "list.undecided": listUndecided,
  "network.column": networkColumn,
  "network.kind": networkKind,
  "network.resistance": networkResistance,
  "network.between": networkBetween,
  "network.end": networkEnd,
  "network.reference": networkReference,
  "network.floating": networkFloating,
  "network.deadEnd": networkDeadEnd,
  "network.sourceLoop": networkSourceLoop,
  "network.tooMeshed": networkTooMeshed,
  "network.noSource": networkNoSource,
  "network.header": networkHeader,
  "table.loop": tableLoop,
  "table.partEmpty": tablePartEmpty,
  "table.unknownPart": tableUnknownPart,
  "table.file": tableFile(
    (problem, row, context) => wordingOf(problem).message(problem, { row, context }),
    (problem) => wordingOf(problem).severity,
  ),
  "table.emptyFile": tableEmptyFile,
  "table.notUtf8": tableNotUtf8,
  "table.unclosedQuote": tableUnclosedQuote,
  "table.cell": tableCell,
  "table.computedCell": tableComputedCell,
  "table.doubledRow": tableDoubledRow,
  "table.emptyCell": tableEmptyCell,
  "table.header": tableHeader,
  "table.mergedCell": tableMergedCell,
  "table.mixed": tableMixed,
  "table.native": tableNative,
  "table.ragged": tableRagged,
  "table.repeatedRow": tableRepeatedRow,
  "table.rowLikeColumn": tableRowLikeColumn,
  "table.rows": tableRows(
    (problem, row, context) => wordingOf(problem).message(problem, { row, context }),
    (problem) => wordingOf(problem).severity,
  ),
  "table.unknown": tableUnknown,
  "text.unexpected": textUnexpected,
  "choice.off": choiceOff,
  "choice.overtaken": choiceOvertaken,
  "choice.short": choiceShort,
  "choice.series": choiceSeries,
  "measurement.disjoint": measurementDisjoint,
  "measurement.outside": measurementOutside,
  "measurement.replaces": measurementReplaces,
  "assumption.unused": assumptionUnused,
  "rule.notACondition": ruleNotACondition,
  "use.self": useSelf,
  "use.outside": useOutside,
  "use.missing": useMissing,
  "use.unreadable": useUnreadable,
  "use.notANote": useNotANote,
  "handbook.shadowed": handbookShadowed,
  "handbook.unreadable": handbookUnreadable,
  "later.notComputed": laterNotComputed,
  "rule.fails": ruleFails,
  "rule.failsAtLimits": ruleFailsAtLimits,
  "rule.undecided": ruleUndecided,
  "note.afterParagraph": noteAfterParagraph,
  "note.inList": noteInList,
  "note.atMargin": noteAtMargin,
  "text.notUtf8": textNotUtf8,
  "caution.voltage": caution("caution.voltage"),
  "caution.mains": caution("caution.mains"),
  "caution.energy": caution("caution.energy"),
  "caution.touch": caution("caution.touch"),
  "caution.radiance": caution("caution.radiance"),
  "caution.laser": caution("caution.laser"),
  "caution.hearing": caution("caution.hearing"),
  "caution.swallow": caution("caution.swallow"),
  "caution.lithium": caution("caution.lithium"),
  "caution.overhead": caution("caution.overhead"),
  "caution.pinch": caution("caution.pinch"),
  "accept.unknown": acceptUnknown,
  "accept.idle": acceptIdle,
};

const CODES: ReadonlySet<string> = new Set(Object.keys(WORDINGS));

/** Every code with what it means, by code. */
export const REFERENCE: readonly ReferenceEntry[] = (Object.keys(WORDINGS) as Code[])
  .sort()
  .map((code) => ({ code, severity: WORDINGS[code].severity, reference: WORDINGS[code].reference }));
