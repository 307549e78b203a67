/** Stands among kept names where the last place may be refused for want of an Axel. */
export const AXEL = 'the Axel';
