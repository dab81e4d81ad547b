/** Names of months by the number of the month, in English, German, French, Spanish and Polish, long and short, no accents. */
const names: readonly string[] = [
	'january jan januar janner jaenner janvier janv enero ene styczen stycznia sty i',
	'february feb februar feber fevrier fevr fev febrero luty lutego lut ii',
	'march mar marz maerz mrz mars marzo marzec marca iii',
	'april apr avril avr abril abr kwiecien kwietnia kwi iv',
	'may mai mayo maj maja v',
	'june jun juni juin junio czerwiec czerwca cze vi',
	'july jul juli juillet juil julio lipiec lipca lip vii',
	'august aug aout agosto ago sierpien sierpnia sie viii',
	'september sep sept septembre septiembre setiembre set wrzesien wrzesnia wrz ix',
	'october oct oktober okt octobre octubre pazdziernik pazdziernika paz x',
	'november nov novembre noviembre listopad listopada lis xi',
	'december dec dezember dez decembre diciembre dic grudzien grudnia gru xii'
];

const monthByName: ReadonlyMap<string, number> = new Map(
	names.flatMap((list, index) => list.split(' ').map((name): [string, number] => [name, index + 1]))
);

/**
 * The month (1 to 12) of a word in small letters without accents; the Roman numerals that Polish writes count as well.
 * @source Unicode CLDR, month names of en, de, fr, es, pl (a test holds them against `Intl`)
 */
export function monthOf(word: string): number | undefined {
	return monthByName.get(word);
}

const weekdayWords = new Set(
	[
		'monday mon montag mo lundi lun lunes poniedzialek pon pn',
		'tuesday tue tues dienstag di mardi mar martes wtorek wt',
		'wednesday wed mittwoch mi mercredi mer miercoles mie sroda sr',
		'thursday thu thur thurs donnerstag do jeudi jeu jueves jue czwartek czw cz',
		'friday fri freitag fr vendredi ven viernes vie piatek pt',
		'saturday sat samstag sonnabend sa samedi sam sabado sab sobota sob sb',
		'sunday sun sonntag so dimanche dim domingo dom niedziela niedz nd ndz'
	].flatMap((list) => list.split(' '))
);

/** True for the name of a weekday, long or short, in small letters without accents. */
export function isWeekdayWord(word: string): boolean {
	return weekdayWords.has(word);
}
