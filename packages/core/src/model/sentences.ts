import type { BoardSentences, ChartingSentences } from './sentences/board.js';
import type { CardSentences } from './sentences/cards.js';
import type { NameSentences, Of, WordSentences } from './sentences/common.js';
import type { IssueSentences, UnusableSentences } from './sentences/issues.js';
import type { DrawSentences } from './sentences/draw.js';
import type { DrugSentences } from './sentences/drugs.js';
import type { FeedSentences, HandoverSentences } from './sentences/handover.js';
import type { HomeSentences } from './sentences/home.js';
import type { LumenSentences } from './sentences/lumens.js';
import type {
  ApplySentences,
  ExplainSentences,
  FhirSentences,
  OutputSentences,
  TableSentences,
} from './sentences/outputs.js';
import type { ConditionSentences, ExplainPageSentences } from './sentences/pages.js';
import type { CodeSentences } from './sentences/codes.js';
import type { PreviewSentences } from './sentences/preview.js';
import type { RepairSentences } from './sentences/repair.js';
import type { FactSentences, ReadingSentences, RemarkSentences } from './sentences/remarks.js';
import type { UnderstandingSentences } from './sentences/understanding.js';
import type { CalculatedSentences, ReasonSentences, WorkSentences } from './sentences/work.js';

export type { Name, Scheduled, When } from './sentences/common.js';
export type { DoneOrSeen, Part, Unusable } from './sentences/issues.js';
export type { WorkText } from './sentences/handover.js';
export type { Remark } from './sentences/outputs.js';
export type { EndOfHold, LayerName, PolicyChange } from './sentences/remarks.js';
export type { ForbiddenBy, Reason, StepPart } from './sentences/work.js';

/**
 * Everything that is ever said to a reader, as data: a code, and what the sentence tells of as raw parameters. No text
 * of ours stands in a parameter; names and texts of the record and of a policy do, as their owners wrote them. The room
 * `words/` gives each code its wording, by language, and nothing reads that wording back.
 */
export interface Sentences
  extends
    NameSentences,
    WordSentences,
    RemarkSentences,
    FactSentences,
    ReadingSentences,
    WorkSentences,
    ReasonSentences,
    CalculatedSentences,
    UnusableSentences,
    IssueSentences,
    UnderstandingSentences,
    LumenSentences,
    OutputSentences,
    TableSentences,
    ExplainSentences,
    FhirSentences,
    ApplySentences,
    HandoverSentences,
    FeedSentences,
    HomeSentences,
    DrawSentences,
    DrugSentences,
    RepairSentences,
    ExplainPageSentences,
    ConditionSentences,
    PreviewSentences,
    CodeSentences,
    ChartingSentences,
    BoardSentences,
    CardSentences {}

/** The code of a sentence, or of a part of one. */
export type SentenceCode = keyof Sentences;

/** A sentence as data; with codes, one of these. */
export type Sentence<Codes extends SentenceCode = SentenceCode> = Of<Pick<Sentences, Codes>>;

/** What is to be known of how a fact was read. */
export type FactRemark = Of<FactSentences>;

/** What an item has to say of the finding that it follows from. */
export type Reading = Of<ReadingSentences>;
