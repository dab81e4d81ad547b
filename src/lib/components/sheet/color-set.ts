/** Which set of colors a reader wants: that of the device, paper, or blueprint. */
export type ColorSet = 'device' | 'light' | 'blueprint';

/** The cookie that remembers the choice. */
export const colorSetCookie = 'doorwright-set';

export const colorSets: readonly { readonly set: ColorSet; readonly name: string }[] = [
	{ set: 'light', name: 'Paper' },
	{ set: 'blueprint', name: 'Blueprint' },
	{ set: 'device', name: 'As the device' }
];

/** Takes a value from outside for a choice; what is none counts as the device's. */
export function readColorSet(value: unknown): ColorSet {
	return colorSets.find(({ set }) => set === value)?.set ?? 'device';
}
