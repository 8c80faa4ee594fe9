import type { AxisShown, CellShown, Coverage, CoverageQuestion, CoverageRegion, Named } from '@quarrel/pictures';
import { useId } from 'preact/hooks';
import { Sign } from './findings.js';
import { legendOf, outcomeKinds, outcomeWords } from './outcomes.js';
import { Picker } from './pickers.js';
import { unbroken } from './times.js';
import type { Words } from './words.js';

interface CoverageProps {
  readonly coverage: Coverage;
  readonly question: CoverageQuestion;
  readonly words: Words;
  readonly onAsk: (question: CoverageQuestion) => void;
  readonly showChecklist: (suppose: readonly string[]) => void;
}

export function CoverageView({ coverage, question, words, onAsk, showChecklist }: CoverageProps) {
  return (
    <>
      <header class="head">
        <h1>{coverage.procedure.label}</h1>
      </header>
      <Question {...{ coverage, question, words, onAsk }} />
      {coverage.declined.map(({ condition, picked, taken }) => (
        <p key={condition} class="declined" role="status">
          {words.declined(condition, picked, taken)}
        </p>
      ))}
      <Grid {...{ coverage, words, showChecklist }} />
      <Legend {...{ coverage, words }} />
    </>
  );
}

type QuestionProps = Pick<CoverageProps, 'coverage' | 'question' | 'words' | 'onAsk'>;

function Question({ coverage, question, words, onAsk }: QuestionProps) {
  const { across, down, by, choice, choices, axes, others } = coverage;
  const laidOut = { ...question, ...(across && { across: across.name }), ...(down && { down: down.name }) };
  const swapped = { ...question, ...(down && { across: down.name }), ...(across && { down: across.name }) };
  const aspects = (['choice', 'time', 'findings'] as const).filter((one) => one !== 'choice' || choices.length > 0);
  const fix = (name: string, value: string | number | undefined): void => {
    const { [name]: _, ...rest } = question.fixed;
    onAsk({ ...laidOut, fixed: value === undefined ? rest : { [name]: value, ...rest } });
  };
  return (
    <section class="situation" aria-label={words.grid}>
      <div class="pickers">
        {across !== undefined && (
          <Select
            label={words.across}
            value={across.name}
            options={axes}
            onPick={(name) => onAsk(name === down?.name ? swapped : { ...laidOut, across: name })}
          />
        )}
        {down !== undefined && (
          <Select
            label={words.down}
            value={down.name}
            options={axes}
            onPick={(name) => onAsk(name === across?.name ? swapped : { ...laidOut, down: name })}
          />
        )}
        <Select
          label={words.by}
          value={by}
          options={aspects.map((name) => ({ name, label: words.aspects[name] }))}
          onPick={(name) => {
            const aspect = aspects.find((one) => one === name);
            if (aspect !== undefined) onAsk({ ...laidOut, by: aspect });
          }}
        />
        {by === 'choice' && choice !== undefined && choices.length > 1 && (
          <Select
            label={words.choice}
            value={choice.name}
            options={choices}
            onPick={(choose) => onAsk({ ...laidOut, choose })}
          />
        )}
      </div>
      {others.length > 0 && (
        <details open={others.some(({ fixed }) => fixed)}>
          <summary>{words.otherConditions}</summary>
          <div class="pickers">
            {others.map(({ pick, fixed }) => (
              <Picker
                key={pick.name}
                pick={pick}
                taken={fixed}
                any={words.any}
                words={words}
                onPick={(value) => fix(pick.name, value)}
              />
            ))}
          </div>
        </details>
      )}
    </section>
  );
}

interface SelectProps {
  readonly label: string;
  readonly value: string;
  readonly options: readonly Named[];
  readonly onPick: (name: string) => void;
}

function Select({ label, value, options, onPick }: SelectProps) {
  const id = useId();
  return (
    <div class="picker">
      <label class="of" for={id}>
        {label}
      </label>
      <select id={id} value={value} onChange={({ currentTarget }) => onPick(currentTarget.value)}>
        {options.map((option) => (
          <option key={option.name} value={option.name}>
            {option.label}
          </option>
        ))}
      </select>
    </div>
  );
}

type GridProps = Pick<CoverageProps, 'coverage' | 'words' | 'showChecklist'>;

/** The first column and the first two rows say what the cells are. */
function Grid({ coverage, words, showChecklist }: GridProps) {
  const { across, down, regions } = coverage;
  const columns = across?.cells.length ?? 1;
  const rows = down?.cells.length ?? 1;
  const kinds = outcomeKinds(coverage);
  return (
    <div class="scroller">
      <section
        class="grid"
        aria-label={[across, down]
          .map((axis) => axis?.label ?? '')
          .filter(Boolean)
          .join(', ')}
        style={{
          gridTemplateColumns: `max-content ${widthsOf(columns, regions)}`,
          gridTemplateRows: `auto auto repeat(${rows}, minmax(3.6rem, auto))`,
        }}
      >
        {down !== undefined && (
          <span class="axis-name down" style={{ gridArea: '2 / 1' }}>
            {down.label}
          </span>
        )}
        {across !== undefined && (
          <span class="axis-name across" style={{ gridArea: `1 / 2 / 2 / ${columns + 2}` }}>
            {across.label}
          </span>
        )}
        <Labels axis={across} words={words} areaOf={(index) => `2 / ${index + 2}`} className="column" />
        <Labels axis={down} words={words} areaOf={(index) => `${index + 3} / 1`} className="line" />
        {regions.map((region) => (
          <RegionCell
            key={`${region.left} ${region.top}`}
            {...{ region, words, showChecklist }}
            kind={kinds.get(JSON.stringify(region.outcome)) ?? ''}
          />
        ))}
      </section>
    </div>
  );
}

/** Columns in which nothing is covered need less room. */
function widthsOf(columns: number, regions: readonly CoverageRegion[]): string {
  const isCovered = (column: number): boolean =>
    regions.some(({ left, width, situation }) => situation !== undefined && left <= column && column < left + width);
  const widths = Array.from({ length: columns }, (_, column) =>
    isCovered(column) ? 'minmax(6rem, 1fr)' : 'minmax(5rem, 0.5fr)',
  );
  return widths.join(' ');
}

interface LabelsProps {
  readonly axis: AxisShown | undefined;
  readonly words: Words;
  readonly className: string;
  readonly areaOf: (index: number) => string;
}

function Labels({ axis, words, className, areaOf }: LabelsProps) {
  return (
    <>
      {axis?.cells.map((cell, index) => (
        <span key={cellWords(cell, words)} class={`label ${className}`} style={{ gridArea: areaOf(index) }}>
          {cell.kind === 'values' && cell.values.length > 2 ? (
            <abbr title={cellWords(cell, words)}>{words.otherValues(cell.values.length)}</abbr>
          ) : (
            cellWords(cell, words)
          )}
        </span>
      ))}
    </>
  );
}

interface RegionProps {
  readonly region: CoverageRegion;
  readonly kind: string;
  readonly words: Words;
  readonly showChecklist: (suppose: readonly string[]) => void;
}

function RegionCell({ region, kind, words, showChecklist }: RegionProps) {
  const { left, top, width, height, outcome, circumstance, situation } = region;
  const style = { gridArea: `${top + 3} / ${left + 2} / span ${height} / span ${width}` };
  const text = outcomeWords(outcome, words);
  const where = circumstance === 'always' ? words.everywhere : circumstance;
  if (situation === undefined) {
    return (
      <span class="region outside" style={style} title={where}>
        <span class="outcome">{text}</span>
      </span>
    );
  }
  return (
    <button
      type="button"
      class={`region ${kind}`}
      style={style}
      title={where}
      aria-label={`${text}: ${where}`}
      onClick={() => showChecklist(situation.suppose)}
    >
      <span class="outcome">
        {outcome.kind === 'findings' && outcome.worst !== undefined ? (
          <>
            <Sign severity={outcome.worst} /> {words.countOfFindings(outcome.count)}
          </>
        ) : (
          unbroken(text)
        )}
      </span>
    </button>
  );
}

function Legend({ coverage, words }: Pick<CoverageProps, 'coverage' | 'words'>) {
  return (
    <ul class="legend" aria-label={words.legend}>
      {[...legendOf(coverage, words)].map(([kind, text]) => (
        <li key={kind}>
          <span class={`sample region ${kind}`} aria-hidden="true" />
          {text}
        </li>
      ))}
    </ul>
  );
}

function cellWords(cell: CellShown, words: Words): string {
  if (cell.kind === 'values') return cell.values.map(({ label }) => label).join(', ');
  const { low, high } = cell;
  if (low.isRangeEnd && high.isRangeEnd) return words.any;
  if (low.isRangeEnd) return words.below(high.text, high.included);
  if (high.isRangeEnd) return words.above(low.text, low.included);
  if (low.text === high.text) return low.text;
  return words.stretch(low.text, low.included, high.text, high.included);
}
