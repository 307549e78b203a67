/** A time in the program as `m:ss`, from seconds ≥ 0: to the nearest second, 59.6 s are `1:00`. */
export function clock(seconds: number): string {
  const whole = Math.round(seconds);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
}
