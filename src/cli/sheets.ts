import { readYaml, type InputValue } from './values.ts';

/** Reads protocols from what is not JSON: every form of sheet that `intake` knows. */
export const readSheets = (bytes: Buffer, name: string): Promise<readonly InputValue[]> => readYaml(bytes, name);
