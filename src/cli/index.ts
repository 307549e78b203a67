/** Door of the room `cli`: the commands on a given outside world. `main.ts` runs them on this process. */
export { run } from './run.ts';
export { UsageError, type ExitCode, type Io } from './io.ts';
export { answerEach, type Answer, type AnswerOptions } from './answer-each.ts';
export { readValues, type InputValue, type OtherReader } from './values.ts';
