/**
 * Names that the platform knows beside those of the IANA time zone database. They are refused: `BST` is not the time of
 * London there but that of Dhaka, `AST` that of Anchorage, and a rollout would be hours off without a word.
 * @source Unicode CLDR, supplementalData: legacy short names of zones; `EST`, `MST`, `HST` and others are in the IANA database
 */
const namesOfThePlatformOnly = new Set(
	(
		'ACT AET AGT ART AST BET BST CAT CNT CST CTT EAT ECT IET IST JST MIT NET NST PLT PNT PRT PST SST VST ' +
		'SYSTEMV/AST4 SYSTEMV/AST4ADT SYSTEMV/EST5 SYSTEMV/EST5EDT SYSTEMV/CST6 SYSTEMV/CST6CDT SYSTEMV/MST7 ' +
		'SYSTEMV/MST7MDT SYSTEMV/PST8 SYSTEMV/PST8PDT SYSTEMV/YST9 SYSTEMV/YST9YDT SYSTEMV/HST10'
	).split(' ')
);

/** True for a name in the IANA time zone database that this platform knows; offsets such as `+02:00` are none. */
export function isTimeZone(name: string): boolean {
	if (!/^[A-Za-z]/.test(name) || namesOfThePlatformOnly.has(name.toUpperCase())) return false;
	try {
		new Intl.DateTimeFormat('en', { timeZone: name });
		return true;
	} catch {
		return false;
	}
}
