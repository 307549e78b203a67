import type { z } from 'zod';

import { inventoryForm, layoutForm, protocolForm } from '../scoring/index.ts';

/** The forms by the name that `edgeledger schema NAME` takes. */
export const FORMS: Readonly<Record<string, z.ZodType>> = {
  protocol: protocolForm,
  layout: layoutForm,
  inventory: inventoryForm,
};
