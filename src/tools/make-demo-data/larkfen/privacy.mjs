import { people, tagged } from './people.mjs';

/**
 * Notices, consents, templates of the pilot, and holds at Larkfen Cold Store, as of 25 November 2026. The first version of the
 * notice left out how long a template is kept; the second says it, and asks for a fresh release.
 */

const languages = ['en', 'es', 'pl'];

export function privacy() {
	return {
		regimes: ['us-il'],
		siteRules: { daysAfterLeaving: 3, daysUnused: 180 },
		notices: languages.flatMap((language) => [
			notice(`n1-${language}`, '1.0', language, '2026-10-19', null, false),
			notice(`n2-${language}`, '1.1', language, '2026-11-16', `n1-${language}`, true)
		]),
		consents: consents(),
		templates: templates(),
		holds: tagged('held-guard').map(({ id }) => ({
			person: id,
			from: '2026-11-09',
			until: null,
			reason: 'Counsel asks to keep what concerns the forced drivers’ door of 5 November'
		}))
	};
}

/**
 * @param {string} id
 * @param {string} version
 * @param {string} language
 * @param {string} publishedOn
 * @param {string | null} replaces
 * @param {boolean} needsFreshConsent
 */
function notice(id, version, language, publishedOn, replaces, needsFreshConsent) {
	return { id, version, language, publishedOn, replaces, needsFreshConsent };
}

/** @typedef {{ id: string, language: string }} Reader */

/** Those of the pilot, in three groups: with a release before, after, and before they were enrolled but outdated now. */
function pilot() {
	const guards = tagged('guard');
	const admins = tagged('admin');
	return { admins, guards, others: [...tagged('leaving-admin'), ...tagged('withdrawing-guard')] };
}

function consents() {
	const { admins, guards, others } = pilot();
	const former = [...tagged('former-guard'), ...tagged('held-guard')];
	const early = [...guards.slice(0, 6), ...admins.slice(0, 1), ...others, ...former];
	const list = early.map((person) => consent(person, 'n1', 'given', '2026-10-26'));
	// Enrolled on 9 November, the signed form came a day later.
	list.push(...admins.slice(1).map((person) => consent(person, 'n1', 'given', '2026-11-10')));
	// Since the second version is out, all who are still there have signed again but one; another thinks better of it.
	const again = [...guards.slice(0, 5), ...admins, ...tagged('leaving-admin')];
	list.push(...again.map((person) => consent(person, 'n2', 'given', '2026-11-17')));
	list.push(...guards.slice(6).map((person) => consent(person, 'n2', 'given', '2026-11-18')));
	list.push(...tagged('withdrawing-guard').map((person) => consent(person, 'n1', 'withdrawn', '2026-11-23')));
	list.push(...firstWave().map((person) => consent(person, 'n2', 'given', '2026-11-20')));
	list.push(...tagged('declined').map((person) => consent(person, 'n2', 'declined', '2026-11-19')));
	return list.sort((one, other) => (one.on < other.on ? -1 : one.on > other.on ? 1 : 0));
}

/** People of the first wave who signed at the meeting of 20 November. */
function firstWave() {
	return people().filter(
		({ department, job }, index) =>
			((department === 'Office' && job !== 'Site administrator') || department === 'Maintenance') && index % 4 !== 0
	);
}

/**
 * @param {Reader} person
 * @param {'n1' | 'n2'} version
 * @param {'given' | 'declined' | 'withdrawn'} decision
 * @param {string} on
 */
function consent(person, version, decision, on) {
	const method = decision === 'given' ? 'signed-form' : 'letter';
	return { person: person.id, notice: `${version}-${person.language}`, decision, on, method };
}

function templates() {
	const { admins, guards, others } = pilot();
	const [bare, ...rest] = guards;
	return [
		// First capture poor, erased everywhere and taken again.
		...[bare].flatMap((person) =>
			person === undefined
				? []
				: [
						{
							...template(person, '2026-11-02', '2026-11-05', ['c1', 'c2', 'training']),
							erasures: ['c1', 'c2', 'training'].map((from) => erasure(from, '2026-11-09'))
						},
						template(person, '2026-11-09', '2026-11-24', ['c1', 'c2', 'c3', 'training'])
					]
		),
		...rest.map((person, index) =>
			template(person, index < 5 ? '2026-11-02' : '2026-11-19', '2026-11-24', ['c1', 'c2', 'c3', 'training'])
		),
		...admins.map((person) => template(person, '2026-11-09', '2026-11-24', ['c1', 'c2', 'c3', 'training'])),
		...others.map((person) => template(person, '2026-11-09', '2026-11-20', ['c1', 'c2', 'c3', 'training'])),
		// Gone since 13 November: the controllers were seen to, the station was forgotten.
		...tagged('former-guard').map((person) => ({
			...template(person, '2026-11-02', '2026-11-13', ['c1', 'c2', 'c3', 'training']),
			erasures: ['c1', 'c2', 'c3'].map((from) => erasure(from, '2026-11-13'))
		})),
		...tagged('held-guard').map((person) => template(person, '2026-11-02', '2026-11-06', ['c1', 'c3', 'training']))
	];
}

/**
 * @param {Reader} person
 * @param {string} enrolledOn
 * @param {string} lastUsedOn
 * @param {string[]} storedOn
 */
function template(person, enrolledOn, lastUsedOn, storedOn) {
	/** @type {ReturnType<typeof erasure>[]} */
	const erasures = [];
	return { person: person.id, enrolledOn, lastUsedOn, storedOn, erasures };
}

/**
 * @param {string} from
 * @param {string} on
 */
function erasure(from, on) {
	return { from, on, by: 'Site administrator', evidence: `Deletion list ${on}` };
}
