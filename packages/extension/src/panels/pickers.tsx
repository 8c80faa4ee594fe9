import type { NumberToPick, ToPick, ValuesToPick } from '@quarrel/pictures';
import { useId, useState } from 'preact/hooks';
import type { Words } from './words.js';

interface PickerProps {
  readonly pick: ToPick;
  /** Whether a value is taken; otherwise the condition is left open. */
  readonly taken: boolean;
  /** The word for leaving the condition open, where that can be picked. */
  readonly any?: string;
  readonly words: Words;
  /** A value by its name or in SI; `undefined` leaves the condition open. */
  readonly onPick: (value: string | number | undefined) => void;
}

/** One condition with what can be picked for it. */
export function Picker(props: PickerProps) {
  const { pick } = props;
  return pick.kind === 'observation' ? <ValuePicker {...props} pick={pick} /> : <NumberPicker {...props} pick={pick} />;
}

function ValuePicker({ pick, taken, any, words, onPick }: PickerProps & { readonly pick: ValuesToPick }) {
  const id = useId();
  return (
    <div class="picker">
      <label class="of" for={id}>
        {pick.label}
      </label>
      <select
        id={id}
        value={taken ? pick.value : ''}
        onChange={({ currentTarget }) => onPick(currentTarget.value === '' ? undefined : currentTarget.value)}
      >
        {any !== undefined && <option value="">{any}</option>}
        {pick.values.map(({ name, label, covered }) => (
          <option key={name} value={name}>
            {covered ? label : `${label} (${words.notCovered})`}
          </option>
        ))}
      </select>
    </div>
  );
}

function NumberPicker({ pick, taken, any, words, onPick }: PickerProps & { readonly pick: NumberToPick }) {
  const { unit, label, low, high, step, value, thresholds } = pick;
  const id = useId();
  const shown = taken ? `${value}` : '';
  // What is being typed stays while an answer arrives.
  const [typed, setTyped] = useState<string | undefined>(undefined);
  const toSi = (text: string): number | undefined => {
    const number = Number(text);
    if (text.trim() === '' || !Number.isFinite(number)) return undefined;
    return Number(((number + unit.offset) * unit.factor).toPrecision(12));
  };
  return (
    <div class="picker">
      <label class="of" for={id}>
        {label}
      </label>
      <span class="number">
        <input
          id={id}
          type="number"
          min={low}
          max={high}
          step={step}
          value={typed ?? shown}
          placeholder={any}
          onInput={({ currentTarget }) => setTyped(currentTarget.value)}
          onBlur={() => setTyped(undefined)}
          onChange={({ currentTarget }) => {
            setTyped(undefined);
            const si = toSi(currentTarget.value);
            if (si !== undefined || any !== undefined) onPick(si);
            else currentTarget.value = shown;
          }}
        />
        <span>{unit.name}</span>
      </span>
      {thresholds.length > 0 && (
        <span class="thresholds">
          {words.changesAt}
          {thresholds.map(({ si, text }) => (
            <button key={si} type="button" aria-label={`${label} ${text}`} onClick={() => onPick(si)}>
              {text}
            </button>
          ))}
        </span>
      )}
    </div>
  );
}
