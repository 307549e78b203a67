import { useNavigate } from '@tanstack/react-router';
import { useState } from 'react';
import { Button, FieldError, Form, Input, Label, TextField } from 'react-aria-components';
import { AGE_GROUPS, SEXES } from '../../../../src/notation/vocabulary.ts';
import { newId, type Skater } from '../../data/api.ts';
import { usePut } from '../../data/use.ts';
import { Row } from '../../parts/frame.tsx';
import { didEdit } from '../../parts/undo.tsx';

const CATEGORIES = AGE_GROUPS.flatMap((age) => SEXES.map((sex) => `${age} ${sex}` as const));
const BODIES = [
  { id: '', name: 'ask when a sheet does not say' },
  { id: 'isu', name: 'international rules' },
  { id: 'us', name: 'the national ladder' },
];

/** A new skater: a name, a category, whose rules. Nothing else is asked. */
export function NewSkater() {
  const navigate = useNavigate();
  const put = usePut('skaters');
  const [name, setName] = useState('');
  const [category, setCategory] = useState<Skater['category']>('novice women');
  const [body, setBody] = useState('');
  const save = () => {
    const skater: Skater = {
      id: newId(),
      name: name.trim(),
      category,
      body: body === '' ? null : body,
      nextLesson: null,
      notNow: [],
      archived: false,
    };
    put.mutate(skater, {
      onSuccess: () => {
        didEdit(`${skater.name} is added.`);
        void navigate({ to: '/skaters/$id', params: { id: skater.id } });
      },
    });
  };
  return (
    <Row
      about="New skater"
      notes={<p>No birthday, no photograph, nothing about health: the tool has no use for them.</p>}
    >
      <h1>Add a skater</h1>
      <Form
        className="stack"
        style={{ maxWidth: '26rem', marginTop: '1rem' }}
        onSubmit={(event) => {
          event.preventDefault();
          save();
        }}
      >
        <TextField isRequired value={name} onChange={setName} maxLength={80} autoFocus>
          <Label className="lab">Name or nickname</Label>
          <Input className="field" />
          <FieldError className="problem" />
        </TextField>
        <label>
          <span className="lab">Category</span>
          <select
            className="field"
            value={category}
            onChange={(e) => setCategory(e.target.value as Skater['category'])}
          >
            {CATEGORIES.map((c) => (
              <option key={c}>{c}</option>
            ))}
          </select>
        </label>
        <label>
          <span className="lab">Whose rules</span>
          <select className="field" value={body} onChange={(e) => setBody(e.target.value)}>
            {BODIES.map((b) => (
              <option key={b.id} value={b.id}>
                {b.name}
              </option>
            ))}
          </select>
        </label>
        <Button type="submit" className="btn main">
          Add {name.trim() === '' ? 'her' : name.trim()}
        </Button>
        {put.error !== null && (
          <p className="problem" role="alert">
            {put.error.message}
          </p>
        )}
      </Form>
    </Row>
  );
}
