import { parseObjective, type Objective } from '../../programs/index.ts';
import { UsageError } from '../io.ts';

/** Reads an objective given on the command line. */
export function objectiveFrom(text: string): Objective {
  const objective = parseObjective(text);
  if (objective.ok) return objective.value;
  const { found, expected, advice } = objective.error;
  throw new UsageError(`--objective: found ${found}; expected ${expected}. ${advice}`);
}
