import { expect, test } from 'vitest';
import { isTimeZone } from './time-zone-name';

// Source: IANA time zone database, files `etcetera`, `backward`, `northamerica`, `europe`.
test.each([
	...['America/Chicago', 'Europe/Kyiv', 'Europe/Kiev', 'Asia/Kathmandu', 'Antarctica/Troll', 'America/Ciudad_Juarez'],
	...['UTC', 'Etc/GMT+12', 'Etc/GMT-14', 'GB', 'NZ', 'EST', 'MST', 'HST', 'WET', 'CST6CDT', 'Zulu']
])('%s is in the database', (name) => {
	expect(isTimeZone(name)).toBe(true);
});

// Neither is what it looks like: the platform reads BST as Asia/Dhaka, IST as Asia/Kolkata, AST as America/Anchorage.
test.each(['BST', 'IST', 'CST', 'PST', 'AST', 'bst', 'SystemV/EST5EDT', 'Etc/GMT+13', '+02:00', 'Mars/Olympus', ''])(
	'%s is not in the database',
	(name) => {
		expect(isTimeZone(name)).toBe(false);
	}
);
