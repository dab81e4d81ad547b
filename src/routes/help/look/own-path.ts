/** A path of this app out of what a form sends; anything that could lead elsewhere counts as none. */
export function ownPath(text: FormDataEntryValue | null): string | undefined {
	const home = 'http://home.invalid';
	if (typeof text !== 'string' || !text.startsWith('/') || !URL.canParse(text, home)) return undefined;
	const url = new URL(text, home);
	// Two slashes at the start would name another host.
	return url.origin === home && !url.pathname.startsWith('//') ? url.pathname + url.search : undefined;
}
