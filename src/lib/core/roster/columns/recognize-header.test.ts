import { describe, expect, test } from 'vitest';
import { recognizeHeader } from './recognize-header';
import type { Concept } from './concept';
import { languages, terms } from './vocabulary';

const best = (header: string): string => recognizeHeader(header)[0]?.concept ?? 'nothing';

const headers: Partial<Record<Concept | 'nothing', readonly string[]>> = {
	id: [
		...[
			'ID',
			'Employee ID',
			'EmployeeID',
			'emp_no',
			'Employee #',
			'Staff No.',
			'Personnel number',
			'Personel Number',
			'Payroll no'
		],
		...[
			'Pers.-Nr.',
			'PersNr',
			'Personalnummer',
			'Personal-Nr.',
			'Mitarbeiter-Nr.',
			'MA-Nr.',
			'Stammnummer',
			'Mitarbeiternumer'
		],
		...['Matricule', 'N° matricule', 'Numéro d’employé', 'N° salarié', 'Identifiant'],
		...['Nº empleado', 'Número de empleado', 'Legajo', 'Cód. empleado', 'No. de empleado'],
		...['Nr ewidencyjny', 'Numer pracownika', 'Nr ewid.', 'ID pracownika', 'Nr osobowy']
	],
	name: [
		'Full name',
		'Employee name',
		'fullName',
		'Nom complet',
		'Nombre y apellidos',
		'Nombre completo',
		'Imię i nazwisko',
		'IMIE I NAZWISKO'
	],
	familyFirst: [
		'Last name, first name',
		'Name, Vorname',
		'Nachname, Vorname',
		'Nom et prénom',
		'Apellidos y nombre',
		'Nazwisko i imię'
	],
	nameOrFamily: ['Name', 'NAME', 'Nom'],
	nameOrGiven: ['Nombre'],
	givenName: [
		'First name',
		'first_name',
		'Given name',
		'Vorname',
		'Rufname',
		'Prénom',
		'PRENOM',
		'Nombres',
		'Imię',
		'Imie',
		'Vornahme'
	],
	familyName: [
		'Last name',
		'Surname',
		'Nachname',
		'Familienname',
		'Nom de famille',
		'Apellidos',
		'Primer apellido',
		'Nazwisko',
		'Nachnahme'
	],
	department: [
		'Department',
		'Dept.',
		'Departmnet',
		'Abteilung',
		'Abt.',
		'Abteilng',
		'Service',
		'Département',
		'Departamento',
		'Dpto.',
		'Dział',
		'DZIAL',
		'Wydział',
		'Home department'
	],
	job: [
		'Job title',
		'Position',
		'Role',
		'Tätigkeit',
		'Taetigkeit',
		'Stelle',
		'Poste',
		'Fonction',
		'Puesto',
		'Cargo',
		'Stanowisko',
		'Stanowsko'
	],
	email: [
		'E-Mail',
		'Email',
		'e-mail address',
		'Emial',
		'Work Email',
		'Mailadresse',
		'Courriel',
		'Adresse e-mail',
		'Correo electrónico',
		'Adres e-mail'
	],
	startsOn: [
		...['Start date', 'Hire Date', 'Date of hire', 'Joined', 'Strat date', 'Employment start', 'startsOn'],
		...['Eintritt', 'Eintrittsdatum', 'Eintr.-Dat.', 'Eintritt (TT.MM.JJJJ)', 'Beschäftigt seit', 'Einstellungsdatum'],
		...[
			"Date d'entrée",
			"Date d'embauche",
			'Fecha de alta',
			'Fecha de ingreso',
			'F. Alta',
			'Data zatrudnienia',
			'Zatrudniony od'
		]
	],
	leavesOn: [
		...[
			'End date',
			'Leaving date',
			'Termination date',
			'Last day',
			'Austritt',
			'Austrittsdatum',
			'Vertragsende',
			'Date de sortie'
		],
		...['Fin de contrat', 'Fecha de baja', 'Fecha fin', 'Data zwolnienia', 'Zatrudniony do', 'Koniec umowy', 'leavesOn']
	],
	shiftPattern: [
		'Shift',
		'Shift pattern',
		'Shfit',
		'Schicht',
		'Schichtmodell',
		'Dienstplan',
		'Horaire',
		'Turno',
		'Zmiana',
		'Brygada',
		'Rota'
	],
	workAreas: [
		'Work area',
		'Work areas',
		'workAreas',
		'Arbeitsbereich',
		'Zone de travail',
		'Zona de trabajo',
		'Obszar pracy'
	],
	wave: ['Wave', 'Rollout wave', 'Welle', 'Vague', 'Oleada', 'Fala'],
	captureClass: ['Capture class', 'captureClass', 'Erfassungsklasse'],
	needs: ['Needs', 'Accessibility', 'Barrierefreiheit', 'Besoins', 'Necesidades', 'Potrzeby'],
	language: ['Language', 'Sprache', 'Langue', 'Idioma', 'Język', 'Jezyk', 'Preferred language'],
	other: [
		...[
			'Date of birth',
			'Geburtsdatum',
			'Date de naissance',
			'Fecha de nacimiento',
			'Data urodzenia',
			'Phone',
			'Telefon',
			'Handy'
		],
		...[
			'Manager',
			'Manager e-mail',
			'Manager ID',
			'Vorgesetzter',
			'Cost center',
			'Kostenstelle',
			'Abt.-Nr.',
			'Department code'
		],
		...[
			'Lfd. Nr.',
			'Lp.',
			'Anrede',
			'Titel',
			'Comments',
			'Bemerkung',
			'Street',
			'Standort',
			'Stadt',
			'Team leader',
			'Emergency contact name'
		]
	],
	nothing: ['', '   ', '1234', 'Dear all', 'qwertz', 'Datum', 'x'.repeat(200)]
};

describe.each(Object.entries(headers))('%s', (concept, list) => {
	test.each(list)('%s', (header) => expect(best(header)).toBe(concept));
});

test('how sure is never outside of 0 to 1, a known word is surer than an abbreviation, and that surer than nothing', () => {
	const sure = (header: string) => recognizeHeader(header)[0]?.sure ?? 0;
	for (const list of Object.values(headers)) for (const header of list) expect(sure(header)).toBeLessThanOrEqual(1);
	expect(sure('Abteilung')).toBeGreaterThan(sure('Abteilng'));
	expect(sure('Eintrittsdatum')).toBeGreaterThan(sure('Eintr.-Dat.'));
	expect(sure('Eintr.-Dat.')).toBeGreaterThan(0.4);
});

test('within a language no word stands surely for two things', () => {
	for (const [language, words] of Object.entries(languages)) {
		const seen = new Map<string, string>();
		for (const [concept, list] of Object.entries(words)) {
			for (const entry of list.split(',').map((one) => one.trim())) {
				if (entry.startsWith('~')) continue;
				const before = seen.get(entry);
				expect(
					before === undefined || before === concept,
					`${language}: ${entry} is ${String(before)} and ${concept}`
				).toBe(true);
				seen.set(entry, concept);
			}
		}
	}
	expect(terms.length).toBeGreaterThan(1000);
});

test('one slip of the keyboard in a long header leaves it what it was', () => {
	let tried = 0;
	const missed: string[] = [];
	for (const { concept, tokens, isWeak } of terms) {
		const header = tokens.join(' ');
		if (isWeak || header.length < 9) continue;
		for (let at = 1; at < header.length - 2; at += 5) {
			const slips = [
				header.slice(0, at) + header.slice(at + 1),
				header.slice(0, at) + header.charAt(at) + header.slice(at),
				header.slice(0, at) + header.charAt(at + 1) + header.charAt(at) + header.slice(at + 2)
			];
			for (const slip of slips) {
				tried++;
				if (!recognizeHeader(slip).some((one) => one.concept === concept)) missed.push(`${slip} (${concept})`);
			}
		}
	}
	expect(tried).toBeGreaterThan(4000);
	expect(missed.length / tried, missed.slice(0, 40).join(', ')).toBeLessThan(0.03);
});
