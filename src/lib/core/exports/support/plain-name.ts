/** Text as letters, digits and hyphens, different for different text: ids may hold what a UID or a file name should not. */
export function plainOf(text: string): string {
	if (/^[A-Za-z0-9][A-Za-z0-9-]*$/.test(text) && !text.startsWith('x-')) return text;
	return `x-${[...new TextEncoder().encode(text)].map((byte) => byte.toString(16).padStart(2, '0')).join('')}`;
}
