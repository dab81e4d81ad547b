/** The words of an invitation slip in one language; each is a plain sentence or a label. */
export interface SlipWords {
	readonly title: string;
	readonly when: string;
	readonly where: string;
	readonly howLong: string;
	readonly bring: string;
	readonly happens: string;
	readonly what: string;
	readonly voluntary: string;
	readonly contact: string;
	readonly replaces: string;
	readonly minutes: (count: number) => string;
}

const byLanguage: Readonly<Record<string, SlipWords>> = {
	en: {
		title: 'Your appointment',
		when: 'When',
		where: 'Where',
		howLong: 'How long',
		bring: 'To bring',
		happens: 'What happens',
		what: 'You get the notice about fingerprints and can ask questions. If you agree, your fingers are enrolled and you try a door.',
		voluntary:
			'Taking part with a fingerprint is voluntary. If you would rather not, say so; you need give no reason, and get another credential for the doors.',
		contact: 'Questions, or you cannot come',
		replaces: 'This replaces the appointment that you were told of before:',
		minutes: (count) => `about ${count} minutes`
	},
	es: {
		title: 'Su cita',
		when: 'Cuándo',
		where: 'Dónde',
		howLong: 'Duración',
		bring: 'Qué traer',
		happens: 'Qué se hace',
		what: 'Recibirá el aviso sobre las huellas dactilares y podrá hacer preguntas. Si está de acuerdo, se registran sus dedos y prueba una puerta.',
		voluntary:
			'Participar con la huella dactilar es voluntario. Si prefiere no hacerlo, dígalo; no tiene que dar ningún motivo y recibirá otro medio para abrir las puertas.',
		contact: 'Si tiene preguntas o no puede venir',
		replaces: 'Esta cita sustituye a la que se le comunicó antes:',
		minutes: (count) => `unos ${count} minutos`
	},
	de: {
		title: 'Ihr Termin',
		when: 'Wann',
		where: 'Wo',
		howLong: 'Dauer',
		bring: 'Bitte mitbringen',
		happens: 'Was geschieht',
		what: 'Sie erhalten den Hinweis zu Fingerabdrücken und können Fragen stellen. Wenn Sie einverstanden sind, werden Ihre Finger erfasst und Sie probieren eine Tür aus.',
		voluntary:
			'Die Teilnahme mit dem Fingerabdruck ist freiwillig. Wenn Sie das nicht möchten, sagen Sie es; Sie müssen keinen Grund nennen und erhalten ein anderes Mittel, um die Türen zu öffnen.',
		contact: 'Bei Fragen, oder wenn Sie nicht kommen können',
		replaces: 'Dieser Termin ersetzt den, der Ihnen zuvor mitgeteilt wurde:',
		minutes: (count) => `etwa ${count} Minuten`
	}
};

/** Languages in which slips are written, as BCP 47 names them. */
export const slipLanguages = Object.keys(byLanguage);

/** The words for a person's language, English where there are none, and the language they are in. */
export function slipWords(language: string | null): { readonly language: string; readonly words: SlipWords } {
	const main = (language ?? 'en').toLowerCase().split(/[-_]/)[0] ?? 'en';
	const words = byLanguage[main];
	return words ? { language: main, words } : { language: 'en', words: byLanguage['en'] as SlipWords };
}

/**
 * Date and time as people read them: of the language, in the manner of the country. The time is the clock of the site as it is
 * written, so that no zone is reckoned with.
 */
export function slipTime(start: string, language: string, country: string | null): string {
	const locale = /^[A-Za-z]{2}$/.test(country ?? '') ? `${language}-${country ?? ''}` : language;
	const options = { dateStyle: 'full', timeStyle: 'short', timeZone: 'UTC' } as const;
	return new Intl.DateTimeFormat(locale, options).format(new Date(`${start}:00Z`));
}
