/** True for a name in the IANA time zone database that this platform knows; offsets such as `+02:00` are none. */
export function isTimeZone(name: string): boolean {
	if (!/^[A-Za-z]/.test(name)) return false;
	try {
		new Intl.DateTimeFormat('en', { timeZone: name });
		return true;
	} catch {
		return false;
	}
}
