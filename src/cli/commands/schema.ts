import type { Command } from 'commander';
import { z } from 'zod';

import { FORMS } from '../forms.ts';
import { UsageError, type Io } from '../io.ts';

/** `edgeledger schema NAME`: a form as JSON Schema. */
export function register(program: Command, io: Io): void {
  program
    .command('schema')
    .description('print a form as JSON Schema')
    .argument('<name>', Object.keys(FORMS).join(', '))
    .option('--json', 'compact, on one line')
    .action(async (name: string, options: { json?: boolean }) => {
      const form = Object.hasOwn(FORMS, name) ? FORMS[name] : undefined;
      if (form === undefined) {
        throw new UsageError(`No form is called “${name}”. There are: ${Object.keys(FORMS).join(', ')}.`);
      }
      const schema = z.toJSONSchema(form, { io: 'input', unrepresentable: 'any' });
      await io.out(`${JSON.stringify(schema, null, options.json === true ? undefined : 2)}\n`);
    });
}
