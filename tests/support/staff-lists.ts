import iconv from 'iconv-lite';

/**
 * Staff lists as offices in five countries write them, with known mistakes in known rows. Everything is invented. The
 * expectations are written down while the list is, from what was put in, never by reading it.
 */

type Key =
	'id' | 'first' | 'last' | 'name' | 'department' | 'job' | 'email' | 'startsOn' | 'leavesOn' | 'shift' | 'other';

interface Habits {
	readonly first: readonly string[];
	readonly last: readonly string[];
	readonly headers: Readonly<Record<Key, readonly string[]>>;
	readonly departments: readonly string[];
	readonly jobs: readonly string[];
	readonly shifts: readonly string[];
	readonly totals: readonly string[];
	readonly titles: readonly string[];
	readonly encodings: readonly string[];
}

const unicode = ['utf-8', 'utf-8 marked', 'utf-16le', 'utf-16be', 'utf-16le marked', 'utf-16be marked'];

export const habits: Readonly<Record<string, Habits>> = {
	English: {
		first: ['Ana', 'Ben', 'Chloe', 'Declan', 'Eva', 'Finn', 'Grace', 'Hugo', 'Isla', 'Jack', 'Maeve', 'Priya'],
		last: ["O'Neil", 'Brown', 'Fitzgerald', 'Okafor', 'Patel', 'van der Berg', 'Smith-Jones', 'Ng', 'Quill', 'Stone'],
		headers: {
			id: ['Employee ID', 'Staff No.', 'Emp No', 'Personnel Number', 'EmpID', 'Employee number', 'Payroll No'],
			name: ['Name', 'Full name', 'Employee Name'],
			first: ['First name', 'Forename', 'Given name'],
			last: ['Last name', 'Surname', 'Family name'],
			department: ['Department', 'Dept', 'Dept.', 'Department name'],
			job: ['Job title', 'Position', 'Role', 'Job'],
			email: ['Email', 'E-mail', 'Email address', 'Work email'],
			startsOn: ['Start date', 'Hire date', 'Date of hire', 'Date joined', 'Joining date'],
			leavesOn: ['End date', 'Leaving date', 'Termination date', 'Last day'],
			shift: ['Shift', 'Shift pattern', 'Shift code'],
			other: ['Phone', 'Cost center', 'Comments']
		},
		departments: ['Packing', 'Cold store', 'Night crew', 'Office', 'Maintenance'],
		jobs: ['Operator', 'Fitter', 'Loader', 'Clerk'],
		shifts: ['early', 'late', 'night'],
		totals: ['Total', 'Grand total: 12', 'Total employees'],
		titles: ['Staff list', 'Exported 2027-01-04'],
		encodings: [...unicode, 'windows-1252']
	},
	German: {
		first: ['Jörg', 'Änne', 'Özlem', 'Günther', 'Käthe', 'Max', 'Anna', 'Uwe', 'Björn', 'Renée'],
		last: ['Müller', 'Groß', 'Weiß', 'Schröder', 'von der Heide', 'Kühn', 'Meier', 'Büttner', 'Schmidt'],
		headers: {
			id: ['Personalnummer', 'Pers.-Nr.', 'PersNr', 'Mitarbeiter-Nr.', 'MA-Nr.', 'Stammnummer'],
			name: ['Mitarbeitername', 'Vor- und Nachname', 'Vollständiger Name'],
			first: ['Vorname', 'Rufname'],
			last: ['Nachname', 'Name', 'Familienname'],
			department: ['Abteilung', 'Abt.', 'Bereich'],
			job: ['Tätigkeit', 'Stelle', 'Position', 'Funktion'],
			email: ['E-Mail', 'Mailadresse', 'E-Mail-Adresse'],
			startsOn: ['Eintritt', 'Eintrittsdatum', 'Beschäftigt seit', 'Einstellungsdatum'],
			leavesOn: ['Austritt', 'Austrittsdatum', 'Vertragsende', 'Befristet bis'],
			shift: ['Schicht', 'Schichtmodell', 'Schichtplan'],
			other: ['Telefon', 'Kostenstelle', 'Bemerkung']
		},
		departments: ['Verpackung', 'Kühlhaus', 'Büro', 'Instandhaltung', 'Lager Süd'],
		jobs: ['Packer', 'Schlosser', 'Staplerfahrer', 'Köchin'],
		shifts: ['früh', 'spät', 'nacht'],
		totals: ['Summe', 'Gesamt: 12', 'Anzahl Mitarbeiter'],
		titles: ['Personalliste Werk Süd', 'Stand: 04.01.2027'],
		encodings: [...unicode, 'windows-1252', 'windows-1252']
	},
	French: {
		first: ['Hélène', 'Noël', 'Loïc', 'Zoé', 'François', 'Maëlle', 'Jean', 'Anaïs'],
		last: ['Lefèvre', 'Garçon', 'Dupré', 'Bérenger', 'Lœuillet', 'Martin', 'de la Tour', 'Crépin'],
		headers: {
			id: ['Matricule', 'N° matricule', 'Numéro employé', 'N° salarié', 'Identifiant'],
			name: ['Nom complet', 'Nom et prénom', 'Nom du salarié'],
			first: ['Prénom', 'Prénom usuel'],
			last: ['Nom', 'Nom de famille'],
			department: ['Service', 'Département'],
			job: ['Poste', 'Fonction', 'Emploi', 'Intitulé du poste'],
			email: ['Courriel', 'Adresse e-mail', 'E-mail'],
			startsOn: ["Date d'entrée", "Date d'embauche", 'Date de début'],
			leavesOn: ['Date de sortie', 'Date de fin', 'Fin de contrat', 'Date de départ'],
			shift: ['Horaire', 'Équipe', 'Roulement'],
			other: ['Téléphone', 'Centre de coût', 'Remarques']
		},
		departments: ['Conditionnement', 'Entrepôt', 'Réception', 'Froid'],
		jobs: ['Opérateur', 'Cariste', 'Mécanicien'],
		shifts: ['matin', 'après-midi', 'nuit'],
		totals: ['Total', 'Total général', 'Effectif : 12'],
		titles: ['Liste du personnel', 'Édité le 04/01/2027'],
		encodings: [...unicode, 'windows-1252', 'windows-1252']
	},
	Spanish: {
		first: ['María José', 'Íñigo', 'Begoña', 'Raúl', 'Lucía', 'Andrés', 'Ana'],
		last: ['Muñoz Peña', 'Núñez', 'García López', 'Güell', 'Ibáñez', 'Cruz'],
		headers: {
			id: ['Nº empleado', 'Número de empleado', 'Legajo', 'Cód. empleado'],
			name: ['Nombre completo', 'Nombre y apellidos'],
			first: ['Nombre'],
			last: ['Apellidos', 'Apellido'],
			department: ['Departamento', 'Dpto.', 'Sección'],
			job: ['Puesto', 'Cargo', 'Puesto de trabajo'],
			email: ['Correo electrónico', 'Correo', 'E-mail'],
			startsOn: ['Fecha de alta', 'Fecha de ingreso', 'Fecha de inicio', 'F. alta'],
			leavesOn: ['Fecha de baja', 'Fecha fin', 'Fecha de salida'],
			shift: ['Turno', 'Horario'],
			other: ['Teléfono', 'Centro de coste', 'Observaciones']
		},
		departments: ['Envasado', 'Almacén', 'Cámara fría', 'Oficina'],
		jobs: ['Operario', 'Mecánico', 'Auxiliar'],
		shifts: ['mañana', 'tarde', 'noche'],
		totals: ['Total', 'Suma', 'Total general'],
		titles: ['Listado de personal', 'Año 2027'],
		encodings: [...unicode, 'windows-1252', 'windows-1252']
	},
	Polish: {
		first: ['Łukasz', 'Elżbieta', 'Jaś', 'Zofia', 'Małgorzata', 'Paweł', 'Ewa', 'Grażyna'],
		last: ['Wiśniewski', 'Dębska', 'Źrebiec', 'Kowalski', 'Żółkiewska', 'Zając', 'Nowak', 'Ćwik'],
		headers: {
			id: ['Nr ewidencyjny', 'Numer pracownika', 'Nr ewid.', 'Nr osobowy', 'ID pracownika'],
			name: ['Imię i nazwisko', 'Nazwisko i imię'],
			first: ['Imię'],
			last: ['Nazwisko'],
			department: ['Dział', 'Wydział', 'Komórka organizacyjna'],
			job: ['Stanowisko', 'Stanowisko pracy', 'Funkcja'],
			email: ['E-mail', 'Adres e-mail'],
			startsOn: ['Data zatrudnienia', 'Zatrudniony od', 'Data przyjęcia'],
			leavesOn: ['Data zwolnienia', 'Zatrudniony do', 'Koniec umowy'],
			shift: ['Zmiana', 'Brygada', 'Grafik'],
			other: ['Telefon', 'MPK', 'Uwagi']
		},
		departments: ['Pakowanie', 'Chłodnia', 'Księgowość', 'Utrzymanie ruchu'],
		jobs: ['Operator', 'Ślusarz', 'Wózkowy'],
		shifts: ['ranna', 'popołudniowa', 'nocna'],
		totals: ['Razem', 'Suma: 12', 'Ogółem'],
		titles: ['Lista pracowników', 'Stan na 04.01.2027'],
		encodings: [...unicode, 'windows-1250', 'iso-8859-2']
	}
};

/** How a date is written, from its ISO form. */
const dateForms: Readonly<Record<string, (y: string, m: string, d: string) => string>> = {
	iso: (y, m, d) => `${y}-${m}-${d}`,
	'year in front': (y, m, d) => `${y}/${m}/${d}`,
	dots: (y, m, d) => `${d}.${m}.${y}`,
	'short dots': (y, m, d) => `${Number(d)}.${Number(m)}.${y.slice(2)}`,
	slashes: (y, m, d) => `${d}/${m}/${y}`,
	'month first': (y, m, d) => `${m}/${d}/${y}`,
	dashes: (y, m, d) => `${d}-${m}-${y}`
};

/** A person of a list, and what is expected of them. Dates in ISO form; empty where there is none. */
export type Expected = Record<Key, string>;

export interface StaffList {
	readonly bytes: Uint8Array;
	readonly text: string;
	readonly encoding: string;
	readonly delimiter: string;
	readonly columns: readonly { readonly header: string; readonly key: Key }[];
	/** The people who are to be read, in order. */
	readonly people: readonly Expected[];
	/** `row code` of every problem, without those of dates whose order nothing decides. */
	readonly problems: readonly string[];
	/** Columns of dates in which nothing decides the order. */
	readonly undecided: readonly Key[];
}

/** Numbers from 0 up to 1, the same for the same seed. @source Lehmer generator, Park and Miller (1988) */
function drawer(seed: number): () => number {
	let state = (Math.abs(seed) % 2_147_483_646) + 1;
	return () => (state = (state * 48_271) % 2_147_483_647) / 2_147_483_647;
}

/** Writes a list with some mistakes, from a seed. */
export function staffList(seed: number): StaffList {
	const draw = drawer(seed);
	for (let warmUp = 0; warmUp < 5; warmUp++) draw();
	const pick = <T>(list: readonly T[]): T => list[Math.floor(draw() * list.length)] as T;
	const chance = (share: number): boolean => draw() < share;
	const number = (least: number, most: number): number => least + Math.floor(draw() * (most - least + 1));
	const two = (value: number): string => String(value).padStart(2, '0');

	const habit = habits[pick(Object.keys(habits))] as Habits;
	const delimiter = pick([',', ';', '\t', '|']);
	const form = dateForms[pick(Object.keys(dateForms))] ?? ((y, m, d) => `${y}-${m}-${d}`);
	const written = (date: string): string =>
		date === '' ? '' : form(date.slice(0, 4), date.slice(5, 7), date.slice(8));
	const names: Key[] = chance(0.5) ? (chance(0.5) ? ['first', 'last'] : ['last', 'first']) : ['name'];
	const optional: Key[] = ['job', 'email', 'leavesOn', 'shift', 'other'];
	const keys: Key[] = ['id', ...names, 'department', 'startsOn', ...optional.filter(() => chance(0.7))];
	const columns = keys.map((key) => ({ key, header: pick(habit.headers[key]) }));
	const width = pick([0, 4, 5, 6]);

	const lines: string[] = [];
	const problems: string[] = [];
	const people: Expected[] = [];
	const cell = (value: string): string =>
		value.includes(delimiter) || /["\r\n]/.test(value) || chance(0.05) ? `"${value.replaceAll('"', '""')}"` : value;
	const line = (values: readonly string[]): string => values.map(cell).join(delimiter);
	const alone = (value: string): string => line(columns.map((_, index) => (index === 0 ? value : '')));
	const header = (): string => line(columns.map((column) => column.header));
	const tell = (code: string): number => problems.push(`${lines.length + 1} ${code}`);

	if (chance(0.3)) for (const title of habit.titles) lines.push(chance(0.5) ? cell(title) : alone(title));
	if (chance(0.3)) lines.push('');
	lines.push(header());
	const count = number(3, 30);
	const writtenDates: { readonly key: Key; readonly date: string }[] = [];
	for (let index = 0; index < count; index++) {
		const first = habit.first[index % habit.first.length] ?? '';
		const last = habit.last[Math.floor(index / habit.first.length + index) % habit.last.length] ?? '';
		const person: Expected = {
			id: width === 0 ? `E-${1000 + index}` : String(100 + index * 37).padStart(width, '0'),
			first,
			last,
			name: `${first} ${last}`,
			department: pick(habit.departments),
			job: pick(habit.jobs),
			email: chance(0.8) ? `p${index}@example.org` : '',
			startsOn: `${number(1990, 2026)}-${two(number(1, 12))}-${two(number(1, 28))}`,
			leavesOn: chance(0.2) ? `2027-${two(number(1, 12))}-${two(number(1, 28))}` : '',
			shift: pick(habit.shifts),
			other: chance(0.3) ? '123' : ''
		};
		const values: Expected = { ...person };
		const mistake = pick([
			'id-missing',
			'id-repeated',
			'id-damaged',
			'email-invalid',
			'date-invalid',
			'formula',
			'leaves-before-start',
			'cells-too-many',
			'quote-broken',
			'header-repeated'
		]);
		let surplus = '';
		let isHeld = false;
		let bareQuote = false;
		if (chance(0.2)) {
			const other = people[0];
			if (mistake === 'id-missing') values.id = '';
			else if (mistake === 'id-repeated' && other) values.id = other.id;
			else if (mistake === 'id-damaged') values.id = `1.0${index}E+05`;
			else if (mistake === 'email-invalid' && keys.includes('email')) {
				values.email = pick(['foo@', 'bar', 'a b@example.org', 'x@@example.org']);
				person.email = '';
			} else if (mistake === 'date-invalid') {
				values.startsOn = pick(['2027-02-31', '2027-13-45']);
				person.startsOn = '';
			} else if (mistake === 'formula') values.department = person.department = '=1+1';
			else if (mistake === 'leaves-before-start' && keys.includes('leavesOn'))
				values.leavesOn = person.leavesOn = '1989-01-13';
			else if (mistake === 'cells-too-many') surplus = `${delimiter}more`;
			else if (mistake === 'quote-broken') {
				values.department = person.department = `${person.department} 5" x`;
				bareQuote = true;
			} else if (mistake === 'header-repeated') {
				tell(mistake);
				lines.push(header());
			}
			isHeld = values.id !== person.id;
			const isMade =
				isHeld ||
				surplus !== '' ||
				keys.some((key) => values[key] !== person[key]) ||
				values.department.startsWith('=') ||
				bareQuote ||
				person.leavesOn.startsWith('1989');
			if (isMade) tell(mistake);
		}
		const written1 = keys.map((key) => (key === 'startsOn' || key === 'leavesOn' ? written(values[key]) : values[key]));
		lines.push(
			written1.map((value, at) => (bareQuote && keys[at] === 'department' ? value : cell(value))).join(delimiter) +
				surplus
		);
		for (const key of ['startsOn', 'leavesOn'] as const)
			if (person[key] !== '') writtenDates.push({ key, date: person[key] });
		if (!isHeld) people.push(person);
		if (chance(0.03)) lines.push('');
	}
	if (chance(0.3)) {
		tell('total-row');
		lines.push(alone(pick(habit.totals)));
	}
	const lineEnd = pick(['\n', '\r\n', '\r']);
	const text = lines.join(lineEnd) + (chance(0.7) ? lineEnd : '');
	const encoding = pick(habit.encodings);
	const isIso = written('2027-01-04').startsWith('2027');
	const undecided = (['startsOn', 'leavesOn'] as const).filter((key) => {
		const dates = writtenDates.filter((one) => one.key === key).map(({ date }) => date);
		const isAmbiguous = (date: string): boolean => Number(date.slice(8)) <= 12 && date.slice(8) !== date.slice(5, 7);
		return keys.includes(key) && !isIso && dates.some(isAmbiguous) && !dates.some((date) => Number(date.slice(8)) > 12);
	});
	return {
		bytes: new Uint8Array(iconv.encode(text, encoding.replace(' marked', ''), { addBOM: encoding.endsWith('marked') })),
		text,
		encoding: /^[\0-\x7f]*$/.test(text) && !encoding.startsWith('utf-16') ? 'utf-8' : encoding.replace(' marked', ''),
		delimiter,
		columns,
		people,
		problems,
		undecided
	};
}
