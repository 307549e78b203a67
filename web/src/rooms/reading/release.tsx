import { Link } from '@tanstack/react-router';
import { Button, Dialog, DialogTrigger, Modal } from 'react-aria-components';
import type { Pronouns } from '../../../../src/notation/index.ts';
import type { ProtocolRecord } from '../../data/api.ts';
import { usePut } from '../../data/use.ts';
import { didEdit } from '../../parts/undo.tsx';
import { capital } from '../../words/capital.ts';
import { day } from '../../words/numbers.ts';

interface ReleaseProps {
  readonly record: ProtocolRecord;
  readonly name: string;
  readonly who: Pronouns;
}

/** Nothing reaches skater or family before the coach releases it: one deliberate press. */
export function Release({ record, name, who }: ReleaseProps) {
  const put = usePut('protocols');
  const release = (at: string | null) => {
    put.mutate({ ...record, releasedAt: at });
    didEdit(at === null ? 'Taken back: only you can see it.' : `Released to ${name}.`);
  };
  return (
    <div className="held">
      <p>
        {record.releasedAt === null ? (
          <>
            <b>Not released.</b> Nobody but you can see this. Suggested: at {who.hersOf} next lesson.
          </>
        ) : (
          <>
            <b>Released</b> {day(record.releasedAt.slice(0, 10))}. {capital(who.hersOf)} page can be printed and shown.
          </>
        )}
      </p>
      <div className="tie">
        <Link className="btn" to="/reading/$id/hers" params={{ id: record.id }}>
          See {who.hersOf} page
        </Link>
        {record.releasedAt === null ? (
          <DialogTrigger>
            <Button className="btn main">Release to {name}</Button>
            <Modal className="modal" isDismissable>
              <Dialog role="alertdialog" className="box stack">
                {({ close }) => (
                  <>
                    <h3>Release this reading to {name}?</h3>
                    <p>
                      {name} and {who.hersOf} family may then see {who.hersOf} page: what went up, at most two things
                      still to win, and your words in “In the report”. Your private notes, what the panel told you, the
                      ledger and all chances stay with you.
                    </p>
                    <div className="tie">
                      <Button
                        className="btn main"
                        onPress={() => {
                          release(new Date().toISOString());
                          close();
                        }}
                      >
                        Release
                      </Button>
                      <Button className="btn" onPress={close}>
                        Not yet
                      </Button>
                    </div>
                  </>
                )}
              </Dialog>
            </Modal>
          </DialogTrigger>
        ) : (
          <Button className="btn" onPress={() => release(null)}>
            Take it back
          </Button>
        )}
      </div>
    </div>
  );
}
