import { settleRefused, useRefused } from '../data/pending.ts';

/** What the server did not take: told with its reason and kept here until it is settled. */
export function RefusedLine() {
  const refused = useRefused();
  return refused.map((one) => (
    <div key={one.record.id} className="problem" role="alert">
      <p>
        <b>An entry made without network was not taken.</b> {one.why} It is still kept on this device.
      </p>
      <div className="tie">
        <button type="button" className="btn" onClick={() => settleRefused(one, true)}>
          Send it again
        </button>
        <button type="button" className="btn" onClick={() => settleRefused(one, false)}>
          Give it up
        </button>
      </div>
    </div>
  ));
}
