import type * as storeRoom from '../store/index.ts';
import { UsageError, type Io } from './io.ts';
import { storeAddress } from './store-address.ts';

type StoreRoom = typeof storeRoom;

/** An open store and the room it comes from, which is heavy and loads only now. */
export interface OpenStore {
  readonly connection: Awaited<ReturnType<StoreRoom['connect']>>;
  readonly room: StoreRoom;
}

/** Opens the store for one command and closes it whatever happens. */
export async function withStore(io: Io, work: (open: OpenStore) => Promise<void>): Promise<void> {
  const room = await import('../store/index.ts');
  const connection = await room.connect(storeAddress(io)).catch((error: unknown) => {
    throw new UsageError(error instanceof Error ? error.message : String(error));
  });
  try {
    await work({ connection, room });
  } finally {
    await connection.close();
  }
}
