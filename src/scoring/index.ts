/** Door of the room `scoring`: marks -> points, exact; the audit of a protocol. */
export type * from './protocol.ts';
export * from './layout.ts';
export { percentOf, roundedDivision, sumOrNull } from './arithmetic.ts';
export { panelMean, trimmed, type PanelRule } from './panel.ts';
export { elementValue, jumpRowCode, type ElementValue, type JumpValue } from './element-value.ts';
export { goeByMeanGrade, goeOfGrade, goeOfMarks, pointsOfGrade } from './goe.ts';
export { componentPoints, fallPoints, segmentScore, type SegmentParts, type SegmentScore } from './segment.ts';
export { checkForm, heading, hundredths, pathText, problemOf, readHeading, toPoints } from './form-fields.ts';
export { protocolForm, readProtocol, writeProtocol, type ProtocolForm } from './protocol-form.ts';
export { layoutForm, readLayout, type LayoutForm } from './layout-form.ts';
export { inventoryForm, readInventory, type Inventory } from './inventory-form.ts';
export * from './program-rules/index.ts';
export { audit, type AuditOptions } from './audit/audit.ts';
export { auditAnswer } from './audit/answer.ts';
export { calledElement, type CalledElement, type CalledTrouble } from './audit/called.ts';
export { deductionKind } from './audit/deduction-check.ts';
export {
  FINDING_KINDS,
  type Audit,
  type AuditedComponent,
  type AuditedElement,
  type Figure,
  type Finding,
  type FindingKind,
} from './audit/finding.ts';
