-- A database as version 3 wrote it.
PRAGMA application_id = 1146048338;
PRAGMA user_version = 3;
CREATE TABLE rollout (
	id TEXT PRIMARY KEY,
	-- The site's name, as in the document; kept here for the list of rollouts.
	name TEXT NOT NULL,
	created_at TEXT NOT NULL,
	-- Set when it was deleted; it can be restored until it is erased.
	removed_at TEXT,
	removed_by TEXT,
	-- The number of the latest change, and the revision that it led to.
	last_change INTEGER NOT NULL,
	revision TEXT NOT NULL,
	-- Numbers of pieces are given out once, so that a change record never means another piece.
	next_piece INTEGER NOT NULL
) STRICT;
CREATE TABLE piece (
	rollout TEXT NOT NULL REFERENCES rollout (id) ON DELETE CASCADE,
	-- Keys from the document's root, joined by dots.
	path TEXT NOT NULL,
	-- 0 is what stands at the path itself, from 1 on an entry of the list that stands there.
	number INTEGER NOT NULL,
	-- The order among the keys of one object, or among the entries of one list.
	position REAL NOT NULL,
	-- JSON. Of a list with entries in pieces only [], of an object with keys in pieces only {}.
	body TEXT NOT NULL CHECK (json_valid(body)),
	PRIMARY KEY (rollout, path, number)
) STRICT, WITHOUT ROWID;
CREATE TABLE change (
	rollout TEXT NOT NULL REFERENCES rollout (id) ON DELETE CASCADE,
	number INTEGER NOT NULL,
	at TEXT NOT NULL,
	who TEXT NOT NULL,
	what TEXT NOT NULL,
	edit TEXT NOT NULL,
	params TEXT NOT NULL CHECK (json_valid(params)),
	revision TEXT NOT NULL,
	-- The change that this one took back.
	undoes INTEGER,
	PRIMARY KEY (rollout, number),
	FOREIGN KEY (rollout, undoes) REFERENCES change (rollout, number)
) STRICT, WITHOUT ROWID;
CREATE TABLE change_piece (
	rollout TEXT NOT NULL,
	change INTEGER NOT NULL,
	path TEXT NOT NULL,
	number INTEGER NOT NULL,
	position_before REAL,
	body_before TEXT,
	position_after REAL,
	body_after TEXT,
	PRIMARY KEY (rollout, change, path, number),
	FOREIGN KEY (rollout, change) REFERENCES change (rollout, number) ON DELETE CASCADE
) STRICT, WITHOUT ROWID;
CREATE TABLE proposal (
	rollout TEXT NOT NULL REFERENCES rollout (id) ON DELETE CASCADE,
	number INTEGER NOT NULL,
	answer TEXT NOT NULL,
	params TEXT NOT NULL CHECK (json_valid(params)),
	-- The revision of the document that it was worked out for.
	revision TEXT NOT NULL,
	at TEXT NOT NULL,
	who TEXT NOT NULL,
	-- 1 when it was stopped early and this is the best until then.
	stopped_early INTEGER NOT NULL CHECK (stopped_early IN (0, 1)),
	seconds REAL NOT NULL,
	body TEXT NOT NULL CHECK (json_valid(body)),
	-- The change by which it was adopted.
	adopted_by INTEGER,
	PRIMARY KEY (rollout, number),
	FOREIGN KEY (rollout, adopted_by) REFERENCES change (rollout, number)
) STRICT, WITHOUT ROWID;
CREATE TABLE installation (
	key TEXT PRIMARY KEY,
	value TEXT NOT NULL
) STRICT, WITHOUT ROWID;
CREATE TABLE issue (
	rollout TEXT NOT NULL REFERENCES rollout (id) ON DELETE CASCADE,
	-- From 1: revision A. Given out once, also when an issue is withdrawn.
	number INTEGER NOT NULL,
	at TEXT NOT NULL,
	who TEXT NOT NULL,
	note TEXT NOT NULL,
	-- The number of the latest change at that time, and the revision that it had led to.
	change INTEGER NOT NULL,
	revision TEXT NOT NULL,
	-- Set when it was withdrawn; its document is then gone.
	withdrawn_at TEXT,
	withdrawn_by TEXT,
	document TEXT CHECK (document IS NULL OR json_valid(document)),
	CHECK ((document IS NULL) = (withdrawn_at IS NOT NULL)),
	PRIMARY KEY (rollout, number),
	FOREIGN KEY (rollout, change) REFERENCES change (rollout, number)
) STRICT;
CREATE TABLE change_seal (
	rollout TEXT NOT NULL REFERENCES rollout (id) ON DELETE CASCADE,
	-- The number of the change. No reference: a change that was removed must not take its seal with it.
	number INTEGER NOT NULL,
	-- By chance, so that the hash of the content tells nothing once the content is gone.
	salt TEXT NOT NULL,
	content TEXT NOT NULL,
	-- The hash of the seal before; of the first, what ties the record to its rollout.
	previous TEXT NOT NULL,
	hash TEXT NOT NULL,
	PRIMARY KEY (rollout, number)
) STRICT, WITHOUT ROWID;
INSERT INTO rollout VALUES ('mill-lane-depot', 'Mill Lane Depot', '2026-11-25T14:58:57.018Z', NULL, NULL, 6, '91f16ff136', 28);
INSERT INTO rollout VALUES ('gone', 'Gone', '2026-11-25T14:58:57.133Z', '2026-11-25T14:58:57.139Z', 'Nora', 1, '751f843070', 28);
INSERT INTO piece VALUES ('gone', 'absences', 0, 13, '[]');
INSERT INTO piece VALUES ('gone', 'absences', 15, 0, '{"person":"1001","from":"2027-02-01","until":"2027-02-05"}');
INSERT INTO piece VALUES ('gone', 'accessProfiles', 0, 14, '[]');
INSERT INTO piece VALUES ('gone', 'accessProfiles', 16, 0, '{"id":"staff","entries":[{"doorGroup":"perimeter","schedule":"office"}]}');
INSERT INTO piece VALUES ('gone', 'areas', 0, 4, '[]');
INSERT INTO piece VALUES ('gone', 'areas', 1, 0, '{"id":"street","name":"Street","outside":true}');
INSERT INTO piece VALUES ('gone', 'areas', 2, 1, '{"id":"lobby","name":"Lobby"}');
INSERT INTO piece VALUES ('gone', 'areas', 3, 2, '{"id":"hall","name":"Hall"}');
INSERT INTO piece VALUES ('gone', 'assignments', 0, 15, '[]');
INSERT INTO piece VALUES ('gone', 'assignments', 17, 0, '{"id":"a1","who":{"people":["1001"],"departments":["Office"]},"accessProfile":"staff"}');
INSERT INTO piece VALUES ('gone', 'controllers', 0, 7, '[]');
INSERT INTO piece VALUES ('gone', 'controllers', 7, 0, '{"id":"c1","maxDoors":4}');
INSERT INTO piece VALUES ('gone', 'doorGroups', 0, 6, '[]');
INSERT INTO piece VALUES ('gone', 'doorGroups', 6, 0, '{"id":"perimeter","name":"Perimeter","doors":["main"]}');
INSERT INTO piece VALUES ('gone', 'doors', 0, 5, '[]');
INSERT INTO piece VALUES ('gone', 'doors', 4, 0, '{"id":"main","name":"Main entrance","from":"street","to":"lobby","controller":"c1"}');
INSERT INTO piece VALUES ('gone', 'doors', 5, 1, '{"id":"inner","from":"lobby","to":"hall","exit":"reader","identify":"card"}');
INSERT INTO piece VALUES ('gone', 'enrollment', 0, 16, '{}');
INSERT INTO piece VALUES ('gone', 'enrollment.awayLimits', 0, 5, '[]');
INSERT INTO piece VALUES ('gone', 'enrollment.awayLimits', 22, 0, '{"department":"Packing","maxAway":2}');
INSERT INTO piece VALUES ('gone', 'enrollment.bookings', 0, 6, '[]');
INSERT INTO piece VALUES ('gone', 'enrollment.bookings', 23, 0, '{"person":"1001","station":"s1","lane":1,"start":"2027-01-11T08:00","minutes":8}');
INSERT INTO piece VALUES ('gone', 'enrollment.captureClasses', 0, 2, '[]');
INSERT INTO piece VALUES ('gone', 'enrollment.captureClasses', 19, 0, '{"id":"standard","minutes":8}');
INSERT INTO piece VALUES ('gone', 'enrollment.gridMinutes', 0, 0, '5');
INSERT INTO piece VALUES ('gone', 'enrollment.stations', 0, 3, '[]');
INSERT INTO piece VALUES ('gone', 'enrollment.stations', 20, 0, '{"id":"s1","area":"lobby","open":[{"date":"2027-01-11","at":"08:00-12:00"}]}');
INSERT INTO piece VALUES ('gone', 'enrollment.walks', 0, 4, '[]');
INSERT INTO piece VALUES ('gone', 'enrollment.walks', 21, 0, '{"between":["hall","lobby"],"minutes":4}');
INSERT INTO piece VALUES ('gone', 'enrollment.waves', 0, 1, '[]');
INSERT INTO piece VALUES ('gone', 'enrollment.waves', 18, 0, '{"id":"w1","enrollBy":"2027-01-22","goLive":"2027-01-25"}');
INSERT INTO piece VALUES ('gone', 'format', 0, 0, '"doorwright.rollout"');
INSERT INTO piece VALUES ('gone', 'holidays', 0, 10, '{}');
INSERT INTO piece VALUES ('gone', 'holidays.coveredUntil', 0, 0, '"2027-12-31"');
INSERT INTO piece VALUES ('gone', 'holidays.days', 0, 1, '[]');
INSERT INTO piece VALUES ('gone', 'holidays.days', 10, 0, '{"date":"2027-05-31","name":"Memorial Day","kind":"public"}');
INSERT INTO piece VALUES ('gone', 'horizon', 0, 3, '{"from":"2027-01-04","until":"2027-12-31"}');
INSERT INTO piece VALUES ('gone', 'people', 0, 11, '[]');
INSERT INTO piece VALUES ('gone', 'people', 11, 0, '{"id":"1001","name":"Ada Quill","department":"Packing","shiftPattern":"early","workAreas":["hall"],"wave":"w1"}');
INSERT INTO piece VALUES ('gone', 'people', 12, 1, '{"id":"1002","name":"Ben Marsh","department":"Office","leavesOn":null,"captureClass":"standard"}');
INSERT INTO piece VALUES ('gone', 'people', 13, 2, '{"id":"1003","name":"Cleo Tarn","department":"Office"}');
INSERT INTO piece VALUES ('gone', 'privacy', 0, 17, '{}');
INSERT INTO piece VALUES ('gone', 'privacy.consents', 0, 3, '[]');
INSERT INTO piece VALUES ('gone', 'privacy.consents', 25, 0, '{"person":"1001","notice":"n1","decision":"given","on":"2027-01-05"}');
INSERT INTO piece VALUES ('gone', 'privacy.holds', 0, 5, '[]');
INSERT INTO piece VALUES ('gone', 'privacy.holds', 27, 0, '{"person":"1002","from":"2027-05-01","until":null,"reason":"Claim"}');
INSERT INTO piece VALUES ('gone', 'privacy.notices', 0, 2, '[]');
INSERT INTO piece VALUES ('gone', 'privacy.notices', 24, 0, '{"id":"n1","version":"1.0"}');
INSERT INTO piece VALUES ('gone', 'privacy.regimes', 0, 0, '["us-il"]');
INSERT INTO piece VALUES ('gone', 'privacy.siteRules', 0, 1, '{"daysAfterLeaving":7}');
INSERT INTO piece VALUES ('gone', 'privacy.templates', 0, 4, '[]');
INSERT INTO piece VALUES ('gone', 'privacy.templates', 26, 0, '{"person":"1001","enrolledOn":"2027-01-11","storedOn":["c1","s1"]}');
INSERT INTO piece VALUES ('gone', 'readers', 0, 8, '[]');
INSERT INTO piece VALUES ('gone', 'readers', 8, 0, '{"id":"r1","door":"main","controller":"c1","module":"m1","milliamps":450}');
INSERT INTO piece VALUES ('gone', 'schedules', 0, 9, '[]');
INSERT INTO piece VALUES ('gone', 'schedules', 9, 0, '{"id":"office","week":{"mon":["07:00-19:00"],"tue":[]},"holidays":{"public":"closed","shutdown":["08:00-12:00"]}}');
INSERT INTO piece VALUES ('gone', 'shiftPatterns', 0, 12, '[]');
INSERT INTO piece VALUES ('gone', 'shiftPatterns', 14, 0, '{"id":"early","anchor":"2027-01-04","cycleDays":7,"shifts":[{"day":0,"at":"06:00-14:00"}]}');
INSERT INTO piece VALUES ('gone', 'site', 0, 2, '{"name":"Gone","timeZone":"UTC"}');
INSERT INTO piece VALUES ('gone', 'version', 0, 1, '1');
INSERT INTO piece VALUES ('mill-lane-depot', 'absences', 0, 13, '[]');
INSERT INTO piece VALUES ('mill-lane-depot', 'absences', 15, 0, '{"person":"1001","from":"2027-02-01","until":"2027-02-05"}');
INSERT INTO piece VALUES ('mill-lane-depot', 'accessProfiles', 0, 14, '[]');
INSERT INTO piece VALUES ('mill-lane-depot', 'accessProfiles', 16, 0, '{"id":"staff","entries":[{"doorGroup":"perimeter","schedule":"office"}]}');
INSERT INTO piece VALUES ('mill-lane-depot', 'areas', 0, 4, '[]');
INSERT INTO piece VALUES ('mill-lane-depot', 'areas', 1, 0, '{"id":"street","name":"Street","outside":true}');
INSERT INTO piece VALUES ('mill-lane-depot', 'areas', 2, 1, '{"id":"lobby","name":"Lobby"}');
INSERT INTO piece VALUES ('mill-lane-depot', 'areas', 3, 2, '{"id":"hall","name":"Hall"}');
INSERT INTO piece VALUES ('mill-lane-depot', 'assignments', 0, 15, '[]');
INSERT INTO piece VALUES ('mill-lane-depot', 'assignments', 17, 0, '{"id":"a1","who":{"people":["1001"],"departments":["Office"]},"accessProfile":"staff"}');
INSERT INTO piece VALUES ('mill-lane-depot', 'controllers', 0, 7, '[]');
INSERT INTO piece VALUES ('mill-lane-depot', 'controllers', 7, 0, '{"id":"c1","maxDoors":4}');
INSERT INTO piece VALUES ('mill-lane-depot', 'doorGroups', 0, 6, '[]');
INSERT INTO piece VALUES ('mill-lane-depot', 'doorGroups', 6, 0, '{"id":"perimeter","name":"Perimeter","doors":["main"]}');
INSERT INTO piece VALUES ('mill-lane-depot', 'doors', 0, 5, '[]');
INSERT INTO piece VALUES ('mill-lane-depot', 'doors', 4, 0, '{"id":"main","name":"Main entrance","from":"street","to":"lobby","controller":"c1"}');
INSERT INTO piece VALUES ('mill-lane-depot', 'doors', 5, 1, '{"id":"inner","from":"lobby","to":"hall","name":"Inner door"}');
INSERT INTO piece VALUES ('mill-lane-depot', 'enrollment', 0, 16, '{}');
INSERT INTO piece VALUES ('mill-lane-depot', 'enrollment.awayLimits', 0, 5, '[]');
INSERT INTO piece VALUES ('mill-lane-depot', 'enrollment.awayLimits', 22, 0, '{"department":"Packing","maxAway":2}');
INSERT INTO piece VALUES ('mill-lane-depot', 'enrollment.bookings', 0, 6, '[]');
INSERT INTO piece VALUES ('mill-lane-depot', 'enrollment.captureClasses', 0, 2, '[]');
INSERT INTO piece VALUES ('mill-lane-depot', 'enrollment.captureClasses', 19, 0, '{"id":"standard","minutes":8}');
INSERT INTO piece VALUES ('mill-lane-depot', 'enrollment.gridMinutes', 0, 0, '5');
INSERT INTO piece VALUES ('mill-lane-depot', 'enrollment.stations', 0, 3, '[]');
INSERT INTO piece VALUES ('mill-lane-depot', 'enrollment.stations', 20, 0, '{"id":"s1","area":"lobby","open":[{"date":"2027-01-11","at":"08:00-12:00"}]}');
INSERT INTO piece VALUES ('mill-lane-depot', 'enrollment.walks', 0, 4, '[]');
INSERT INTO piece VALUES ('mill-lane-depot', 'enrollment.walks', 21, 0, '{"between":["hall","lobby"],"minutes":4}');
INSERT INTO piece VALUES ('mill-lane-depot', 'enrollment.waves', 0, 1, '[]');
INSERT INTO piece VALUES ('mill-lane-depot', 'enrollment.waves', 18, 0, '{"id":"w1","enrollBy":"2027-01-22","goLive":"2027-01-25"}');
INSERT INTO piece VALUES ('mill-lane-depot', 'format', 0, 0, '"doorwright.rollout"');
INSERT INTO piece VALUES ('mill-lane-depot', 'holidays', 0, 10, '{}');
INSERT INTO piece VALUES ('mill-lane-depot', 'holidays.coveredUntil', 0, 0, '"2027-12-31"');
INSERT INTO piece VALUES ('mill-lane-depot', 'holidays.days', 0, 1, '[]');
INSERT INTO piece VALUES ('mill-lane-depot', 'holidays.days', 10, 0, '{"date":"2027-05-31","name":"Memorial Day","kind":"public"}');
INSERT INTO piece VALUES ('mill-lane-depot', 'horizon', 0, 3, '{"from":"2027-01-04","until":"2027-12-31"}');
INSERT INTO piece VALUES ('mill-lane-depot', 'people', 0, 11, '[]');
INSERT INTO piece VALUES ('mill-lane-depot', 'people', 11, 0, '{"id":"1001","name":"Ada Quill","department":"Packing","shiftPattern":"early","workAreas":["hall"],"wave":"w1"}');
INSERT INTO piece VALUES ('mill-lane-depot', 'people', 12, 1, '{"id":"1002","name":"Ben Marsh","department":"Office","leavesOn":null,"captureClass":"standard"}');
INSERT INTO piece VALUES ('mill-lane-depot', 'people', 13, 2, '{"id":"1003","name":"Cleo Tarn","department":"Office"}');
INSERT INTO piece VALUES ('mill-lane-depot', 'privacy', 0, 17, '{}');
INSERT INTO piece VALUES ('mill-lane-depot', 'privacy.consents', 0, 3, '[]');
INSERT INTO piece VALUES ('mill-lane-depot', 'privacy.consents', 25, 0, '{"person":"1001","notice":"n1","decision":"given","on":"2027-01-05"}');
INSERT INTO piece VALUES ('mill-lane-depot', 'privacy.holds', 0, 5, '[]');
INSERT INTO piece VALUES ('mill-lane-depot', 'privacy.notices', 0, 2, '[]');
INSERT INTO piece VALUES ('mill-lane-depot', 'privacy.notices', 24, 0, '{"id":"n1","version":"1.0"}');
INSERT INTO piece VALUES ('mill-lane-depot', 'privacy.regimes', 0, 0, '["us-il"]');
INSERT INTO piece VALUES ('mill-lane-depot', 'privacy.siteRules', 0, 1, '{"daysAfterLeaving":7}');
INSERT INTO piece VALUES ('mill-lane-depot', 'privacy.templates', 0, 4, '[]');
INSERT INTO piece VALUES ('mill-lane-depot', 'privacy.templates', 26, 0, '{"person":"1001","enrolledOn":"2027-01-11","storedOn":["c1","s1"]}');
INSERT INTO piece VALUES ('mill-lane-depot', 'readers', 0, 8, '[]');
INSERT INTO piece VALUES ('mill-lane-depot', 'readers', 8, 0, '{"id":"r1","door":"main","controller":"c1","module":"m1","milliamps":450}');
INSERT INTO piece VALUES ('mill-lane-depot', 'schedules', 0, 9, '[]');
INSERT INTO piece VALUES ('mill-lane-depot', 'schedules', 9, 0, '{"id":"office","week":{"mon":["07:00-19:00"],"tue":[]},"holidays":{"public":"closed","shutdown":["08:00-12:00"]}}');
INSERT INTO piece VALUES ('mill-lane-depot', 'shiftPatterns', 0, 12, '[]');
INSERT INTO piece VALUES ('mill-lane-depot', 'shiftPatterns', 14, 0, '{"id":"early","anchor":"2027-01-04","cycleDays":7,"shifts":[{"day":0,"at":"06:00-14:00"}]}');
INSERT INTO piece VALUES ('mill-lane-depot', 'site', 0, 2, '{"name":"Mill Lane Depot","timeZone":"America/Chicago","country":"US","region":"IL","holidayArea":null}');
INSERT INTO piece VALUES ('mill-lane-depot', 'version', 0, 1, '1');
INSERT INTO change VALUES ('gone', 1, '2026-11-25T14:58:57.133Z', 'Nora', 'Document imported', 'import-document', '{}', '751f843070', NULL);
INSERT INTO change VALUES ('mill-lane-depot', 1, '2026-11-25T14:58:57.018Z', 'Nora', 'Document imported', 'import-document', '{}', '717a36e652', NULL);
INSERT INTO change VALUES ('mill-lane-depot', 2, '2026-11-25T14:58:57.098Z', 'Otto', 'Door inner changed', 'put-entry', '{"collection":"doors","entry":{"id":"inner","from":"lobby","to":"hall","name":"Inner door"},"at":"inner"}', 'aa31c59da2', NULL);
INSERT INTO change VALUES ('mill-lane-depot', 3, '2026-11-25T14:58:57.102Z', 'Otto', 'Hold on 1002 from 2027-05-01 removed', 'remove-entry', '{"collection":"holds","at":0}', '1355e308a9', NULL);
INSERT INTO change VALUES ('mill-lane-depot', 4, '2026-11-25T14:58:57.106Z', 'Nora', 'Taken back: Hold on 1002 from 2027-05-01 removed', 'undo', '{"change":3}', 'aa31c59da2', 3);
INSERT INTO change VALUES ('mill-lane-depot', 5, '2026-11-25T14:58:57.108Z', 'Nora', 'Redone: Hold on 1002 from 2027-05-01 removed', 'redo', '{"change":3}', '1355e308a9', 4);
INSERT INTO change VALUES ('mill-lane-depot', 6, '2026-11-25T14:58:57.116Z', 'Nora', 'Bookings replaced: 1 before, 0 now', 'set-bookings', '{"bookings":0}', '91f16ff136', NULL);
INSERT INTO change_piece VALUES ('mill-lane-depot', 2, 'doors', 5, 1, '{"id":"inner","from":"lobby","to":"hall","exit":"reader","identify":"card"}', 1, '{"id":"inner","from":"lobby","to":"hall","name":"Inner door"}');
INSERT INTO change_piece VALUES ('mill-lane-depot', 3, 'privacy.holds', 27, 0, '{"person":"1002","from":"2027-05-01","until":null,"reason":"Claim"}', NULL, NULL);
INSERT INTO change_piece VALUES ('mill-lane-depot', 4, 'privacy.holds', 27, NULL, NULL, 0, '{"person":"1002","from":"2027-05-01","until":null,"reason":"Claim"}');
INSERT INTO change_piece VALUES ('mill-lane-depot', 5, 'privacy.holds', 27, 0, '{"person":"1002","from":"2027-05-01","until":null,"reason":"Claim"}', NULL, NULL);
INSERT INTO change_piece VALUES ('mill-lane-depot', 6, 'enrollment.bookings', 23, 0, '{"person":"1001","station":"s1","lane":1,"start":"2027-01-11T08:00","minutes":8}', NULL, NULL);
INSERT INTO proposal VALUES ('mill-lane-depot', 1, 'plan', '{"seconds":1}', '0123456789', '2026-11-25T10:00:00.000Z', 'Nora', 0, 1, '{"bookings":[]}', 6);
INSERT INTO installation VALUES ('first-started-at', '2026-11-25T09:00:00.000Z');
INSERT INTO issue VALUES ('mill-lane-depot', 1, '2026-11-25T10:05:00.000Z', 'Nora', 'For the electrician', 1, '717a36e652', NULL, NULL, '{
	"format": "doorwright.rollout",
	"version": 1,
	"site": {"name":"Mill Lane Depot","timeZone":"America/Chicago","country":"US","region":"IL","holidayArea":null},
	"horizon": {"from":"2027-01-04","until":"2027-12-31"},
	"areas": [
		{"id":"street","name":"Street","outside":true},
		{"id":"lobby","name":"Lobby"},
		{"id":"hall","name":"Hall"}
	],
	"doors": [
		{"id":"main","name":"Main entrance","from":"street","to":"lobby","controller":"c1"},
		{"id":"inner","from":"lobby","to":"hall","exit":"reader","identify":"card"}
	],
	"doorGroups": [
		{"id":"perimeter","name":"Perimeter","doors":["main"]}
	],
	"controllers": [
		{"id":"c1","maxDoors":4}
	],
	"readers": [
		{"id":"r1","door":"main","controller":"c1","module":"m1","milliamps":450}
	],
	"schedules": [
		{"id":"office","week":{"mon":["07:00-19:00"],"tue":[]},"holidays":{"public":"closed","shutdown":["08:00-12:00"]}}
	],
	"holidays": {
		"coveredUntil": "2027-12-31",
		"days": [
			{"date":"2027-05-31","name":"Memorial Day","kind":"public"}
		]
	},
	"people": [
		{"id":"1001","name":"Ada Quill","department":"Packing","shiftPattern":"early","workAreas":["hall"],"wave":"w1"},
		{"id":"1002","name":"Ben Marsh","department":"Office","leavesOn":null,"captureClass":"standard"},
		{"id":"1003","name":"Cleo Tarn","department":"Office"}
	],
	"shiftPatterns": [
		{"id":"early","anchor":"2027-01-04","cycleDays":7,"shifts":[{"day":0,"at":"06:00-14:00"}]}
	],
	"absences": [
		{"person":"1001","from":"2027-02-01","until":"2027-02-05"}
	],
	"accessProfiles": [
		{"id":"staff","entries":[{"doorGroup":"perimeter","schedule":"office"}]}
	],
	"assignments": [
		{"id":"a1","who":{"people":["1001"],"departments":["Office"]},"accessProfile":"staff"}
	],
	"enrollment": {
		"gridMinutes": 5,
		"waves": [
			{"id":"w1","enrollBy":"2027-01-22","goLive":"2027-01-25"}
		],
		"captureClasses": [
			{"id":"standard","minutes":8}
		],
		"stations": [
			{"id":"s1","area":"lobby","open":[{"date":"2027-01-11","at":"08:00-12:00"}]}
		],
		"walks": [
			{"between":["hall","lobby"],"minutes":4}
		],
		"awayLimits": [
			{"department":"Packing","maxAway":2}
		],
		"bookings": [
			{"person":"1001","station":"s1","lane":1,"start":"2027-01-11T08:00","minutes":8}
		]
	},
	"privacy": {
		"regimes": ["us-il"],
		"siteRules": {"daysAfterLeaving":7},
		"notices": [
			{"id":"n1","version":"1.0"}
		],
		"consents": [
			{"person":"1001","notice":"n1","decision":"given","on":"2027-01-05"}
		],
		"templates": [
			{"person":"1001","enrolledOn":"2027-01-11","storedOn":["c1","s1"]}
		],
		"holds": [
			{"person":"1002","from":"2027-05-01","until":null,"reason":"Claim"}
		]
	}
}
');
INSERT INTO issue VALUES ('mill-lane-depot', 2, '2026-11-25T10:06:00.000Z', 'Nora', 'Too early', 2, 'aa31c59da2', '2026-11-25T10:07:00.000Z', 'Otto', NULL);
INSERT INTO change_seal VALUES ('gone', 1, 'c1649060efbe22d4b4d68da9eb6d0dda', '6cd51e2445b79ea18f375c3e36727f07b7b794cddc145068e3a4b5e9370f7f8b', 'd7c383ac5d6628c64b79f1edf1cccda8f3d66ea160f55647c9ed06eca2d93f2c', '51b1bd752809ebeaac4efc33d01e3344feb5e37d9b6bf7663f18755f318fdc5f');
INSERT INTO change_seal VALUES ('mill-lane-depot', 1, '449228299ae23e71fe9e2660b0a13a5e', 'b54ca6e5368352a564eca197c8e7a4c924eec63964b3b345c5a1473926da772e', '60e615c01ab2224e6e8d4abdde84564cfc17504a18f834572f80742176715067', '79fbf2b7c111a35169fc5d9535f8fb31d2a9b6bce5a03333b05bb8c4e6414fae');
INSERT INTO change_seal VALUES ('mill-lane-depot', 2, 'dce01778f3d37d5d9f49a9c8738404bb', '2f99c78759a1d86808f552b7c63504e996cf1c409e88758b3a68a728d7f51713', '79fbf2b7c111a35169fc5d9535f8fb31d2a9b6bce5a03333b05bb8c4e6414fae', '93aeac476032622fa3a1aa9969a41976b79c37715cf75edf56645c28f87cf9be');
INSERT INTO change_seal VALUES ('mill-lane-depot', 3, 'b8c23e0048fa40958e29be9c9e982f3a', '6ed0ef4ec3386f8a24f2683a1b5c4ac5850af51605851beac663e6f2c1f623af', '93aeac476032622fa3a1aa9969a41976b79c37715cf75edf56645c28f87cf9be', '5ab60aed45f25f4c1e21c0403be7194ef357bc93aacd8e03d3ea0d4db7027262');
INSERT INTO change_seal VALUES ('mill-lane-depot', 4, '5972b8ae9cec09376284db7dbdbffda3', '535e0a1d36f5650d4af9b89c8f9fa3dc2a154b0f8b4b963409bda069d345c89d', '5ab60aed45f25f4c1e21c0403be7194ef357bc93aacd8e03d3ea0d4db7027262', 'dba0e24e684d16bf939c8a1d4a2722c3680cfb287d93f1c12b251f05537e2af6');
INSERT INTO change_seal VALUES ('mill-lane-depot', 5, '9da3e15e788a8f5b1b4b73008577d5be', '3cac15ebacfc4365aa799879688001688e7a7d4043aabd7a3693467972ae9264', 'dba0e24e684d16bf939c8a1d4a2722c3680cfb287d93f1c12b251f05537e2af6', 'a29d274e6a3bfd74c36f5a1e216f76edb7e5c719e5e1f35235cbc97ac197d74c');
INSERT INTO change_seal VALUES ('mill-lane-depot', 6, '28eb85ba006ace17b836fba176750ffa', '4ba07905c6ede1256e0c32e4b9e44cf99162ac9b8dddf3c329776fb9bb66e329', 'a29d274e6a3bfd74c36f5a1e216f76edb7e5c719e5e1f35235cbc97ac197d74c', '6b2ee45dd343f8ba5cd8a84b1853193cd271e199bb6aad891ed066cb683f5819');
CREATE INDEX change_undoes ON change (rollout, undoes) WHERE undoes IS NOT NULL;
CREATE INDEX change_piece_history ON change_piece (rollout, path, number, change);
