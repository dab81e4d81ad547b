/** Orders strings by UTF-16 code units, the order of answers (never by locale). */
export function byCodeUnits(a: string, b: string): number {
	return a < b ? -1 : a > b ? 1 : 0;
}
