import Papa from 'papaparse';
import { importRoster } from '../../src/lib/core/roster/import-roster';
import { type Bench, medianOf, timeText } from './bench';

const rows = 100_000;

/** A list of twelve columns, as an office in Germany exports it. Invented. */
function list(): string {
	const first = ['Ana', 'Ben', 'Chloé', 'Eva', 'Jörg', 'Łukasz', 'Priya'];
	const last = ["O'Neil", 'Brown', 'Müller', 'Okafor', 'van der Berg', 'Ng'];
	const two = (value: number): string => String(value).padStart(2, '0');
	const lines = [
		'Pers.-Nr.;Vorname;Nachname;Abteilung;Tätigkeit;E-Mail;Eintritt;Austritt;Schicht;Kostenstelle;Telefon;Bemerkung'
	];
	for (let index = 0; index < rows; index++) {
		const start = `${two(1 + (index % 28))}.${two(1 + (index % 12))}.${1990 + (index % 36)}`;
		const name = `${first[index % first.length]};${last[index % last.length]} ${index % 977}`;
		lines.push(
			`${String(index).padStart(6, '0')};${name};Abt ${index % 40};Job ${index % 30};p${index}@example.org;${start};;früh;` +
				`${4000 + (index % 50)};+49 30 ${100_000 + index};"Bem; ${index}"`
		);
	}
	return `${lines.join('\r\n')}\r\n`;
}

const bench: Bench = {
	name: 'roster',
	title: `A staff list of ${rows} rows and 12 columns to a complete preview, beside Papa Parse taking the text apart only`,
	async run() {
		const text = list();
		const bytes = new TextEncoder().encode(text);
		let people = 0;
		const ours = await medianOf(3, () => {
			const result = importRoster(bytes);
			people = result.ok ? result.value.people.length : 0;
		});
		let records = 0;
		const papa = await medianOf(3, () => {
			records = Papa.parse(text, { header: false, skipEmptyLines: true }).data.length - 1;
		});
		const megabytes = Math.round(process.resourceUsage().maxRSS / 1024);
		return [
			{
				what: `${(bytes.length / 1e6).toFixed(1)} MB of CSV`,
				ours: `${timeText(ours)}, ${people} people`,
				beside: `${timeText(papa)}, ${records} records`,
				note: `the process held ${megabytes} MB at most, several runs in it`
			}
		];
	}
};

export default bench;
