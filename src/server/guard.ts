import type { FastifyInstance } from 'fastify';
import { ServerError } from './errors.ts';

const SAFE = new Set(['GET', 'HEAD', 'OPTIONS']);

/**
 * A page of another site must not talk to the coach's machine: the Host must be one of ours (against a
 * name that is made to point at loopback), and a write must carry our own Origin or none.
 *
 * @param hosts names under which this server may be addressed, without port.
 */
export function guardLoopback(app: FastifyInstance, hosts: readonly string[]): void {
  app.addHook('onRequest', (request, _reply, done) => {
    const host = hostName(request.headers.host);
    const origin = request.headers.origin;
    if (!hosts.includes(host)) {
      done(new ServerError('request.foreign', `The address "${host}" is not one of: ${hosts.join(', ')}.`));
    } else if (!SAFE.has(request.method) && origin !== undefined && !sameHost(origin, request.headers.host)) {
      done(new ServerError('request.foreign', 'A page of another address asked for a change.'));
    } else {
      done();
    }
  });
}

const hostName = (host: string | undefined): string => (host ?? '').replace(/:\d+$/, '').toLowerCase();

function sameHost(origin: string, host: string | undefined): boolean {
  try {
    // Both through URL, which drops a default port.
    return new URL(origin).host === new URL(`http://${host ?? ''}`).host;
  } catch {
    return false;
  }
}
