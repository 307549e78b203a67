import { useNavigate } from '@tanstack/react-router';
import { useState } from 'react';
import { Button, Input, Label, TextArea, TextField } from 'react-aria-components';
import { describeProblem, parseCode } from '../../../../src/notation/index.ts';
import { newId } from '../../data/api.ts';
import { rules } from '../../data/rules.ts';
import { today } from '../../data/today.ts';
import { usePut } from '../../data/use.ts';
import { useId } from '../../data/use-id.ts';
import { Row } from '../../parts/frame.tsx';
import { didEdit } from '../../parts/undo.tsx';

/** Seasons that the rulebooks know, newest first, with the one that holds today chosen. */
export function seasonsKnown(): string[] {
  return rules()
    .list()
    .flatMap((id) => (id.startsWith('isu/') ? (rules().rulebook(id)?.season ?? []) : []))
    .toReversed();
}

export function seasonOfToday(): string {
  const [year, month] = today().split('-').map(Number);
  const start = (month ?? 7) >= 7 ? (year ?? 0) : (year ?? 0) - 1;
  const name = `${start}/${String((start + 1) % 100).padStart(2, '0')}`;
  return seasonsKnown().includes(name) ? name : (seasonsKnown()[0] ?? name);
}

interface FieldsProps {
  readonly segment: 'short' | 'free';
  readonly season: string;
  readonly onSegment: (segment: 'short' | 'free') => void;
  readonly onSeason: (season: string) => void;
}

function SegmentAndSeason({ segment, season, onSegment, onSeason }: FieldsProps) {
  return (
    <div className="two">
      <label>
        <span className="lab">Segment</span>
        <select
          className="field"
          value={segment}
          onChange={(e) => onSegment(e.target.value === 'short' ? 'short' : 'free')}
        >
          <option value="free">free skate</option>
          <option value="short">short program</option>
        </select>
      </label>
      <label>
        <span className="lab">Season</span>
        <select className="field" value={season} onChange={(e) => onSeason(e.target.value)}>
          {seasonsKnown().map((s) => (
            <option key={s}>{s}</option>
          ))}
        </select>
      </label>
    </div>
  );
}

/** A new layout from a line of codes in skating order. */
export function NewLayout() {
  const id = useId();
  const navigate = useNavigate();
  const put = usePut('layouts');
  const [segment, setSegment] = useState<'short' | 'free'>('free');
  const [season, setSeason] = useState(seasonOfToday());
  const [line, setLine] = useState('');
  const codes = line.split(/[\s,;]+/).filter((c) => c !== '');
  const bad = codes.map((c) => parseCode(c)).find((p) => !p.ok);
  const save = () => {
    const record = {
      id: newId(),
      skaterId: id,
      segment,
      season,
      version: 1,
      title: segment === 'free' ? 'Free skate' : 'Short program',
      current: true,
      form: { elements: codes.map((code) => ({ code })) },
      savedAt: new Date().toISOString(),
    };
    put.mutate(record, {
      onSuccess: () => {
        didEdit('Layout added.');
        void navigate({ to: '/layout/$id', params: { id: record.id } });
      },
    });
  };
  return (
    <Row about="New layout">
      <h1>Her elements, in skating order</h1>
      <form
        className="stack"
        style={{ maxWidth: '36rem', marginTop: '1rem' }}
        onSubmit={(event) => {
          event.preventDefault();
          if (codes.length > 0 && bad === undefined) save();
        }}
      >
        <SegmentAndSeason segment={segment} season={season} onSegment={setSegment} onSeason={setSeason} />
        <TextField value={line} onChange={setLine} maxLength={1000} autoFocus>
          <Label className="lab">Codes, with spaces or commas between them</Label>
          <TextArea
            className="field line"
            rows={3}
            spellCheck="false"
            placeholder="2A+2T 2Lz FSSp3 2F+2Lo LSp4 StSq3 2A 2Lo CCoSp3"
          />
        </TextField>
        {bad?.ok === false && <p className="problem">{describeProblem(bad.error)}</p>}
        <Button type="submit" className="btn main" isDisabled={codes.length === 0 || bad !== undefined}>
          Put them along the music
        </Button>
      </form>
    </Row>
  );
}

/** A new step plan or spin plan: a name, a segment, a season; the rest is written on its own page. */
function NewPlan({ kind, skaterId }: { kind: 'steps' | 'spins'; skaterId: string }) {
  const navigate = useNavigate();
  const put = usePut('plans');
  const [title, setTitle] = useState(kind === 'steps' ? 'Step sequence' : 'Spins');
  const [segment, setSegment] = useState<'short' | 'free'>('free');
  const [season, setSeason] = useState(seasonOfToday());
  const save = () => {
    const record = {
      id: newId(),
      skaterId,
      kind,
      title: title.trim(),
      segment,
      season,
      line: '',
      form: {},
      savedAt: new Date().toISOString(),
    };
    put.mutate(record, {
      onSuccess: () => void navigate({ to: kind === 'steps' ? '/steps/$id' : '/spins/$id', params: { id: record.id } }),
    });
  };
  return (
    <Row about={kind === 'steps' ? 'New step plan' : 'New spin plan'}>
      <h1>{kind === 'steps' ? 'A step sequence' : 'The spins of one program'}</h1>
      <form
        className="stack"
        style={{ maxWidth: '30rem', marginTop: '1rem' }}
        onSubmit={(event) => {
          event.preventDefault();
          save();
        }}
      >
        <TextField value={title} onChange={setTitle} isRequired maxLength={80}>
          <Label className="lab">Name</Label>
          <Input className="field" />
        </TextField>
        <SegmentAndSeason segment={segment} season={season} onSegment={setSegment} onSeason={setSeason} />
        <Button type="submit" className="btn main" isDisabled={title.trim() === ''}>
          Begin
        </Button>
      </form>
    </Row>
  );
}

export function NewSteps() {
  const id = useId();
  return <NewPlan kind="steps" skaterId={id} />;
}

export function NewSpins() {
  const id = useId();
  return <NewPlan kind="spins" skaterId={id} />;
}
