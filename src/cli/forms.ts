import type { z } from 'zod';

import { spinForm, spinsForm, stepsForm } from '../levels/index.ts';
import { toldForm } from '../reading/index.ts';
import { inventoryForm, layoutForm, protocolForm } from '../scoring/index.ts';

/** The forms by the name that `edgeledger schema NAME` takes. */
export const FORMS: Readonly<Record<string, z.ZodType>> = {
  protocol: protocolForm,
  layout: layoutForm,
  inventory: inventoryForm,
  steps: stepsForm,
  spin: spinForm,
  spins: spinsForm,
  told: toldForm,
};
