/**
 * Names of invented people, as varied as those of an Illinois warehouse. Every letter is in windows-1252, because the
 * HR export of the demo is written in it. `language` is what a person of the circle may prefer to read.
 */

/** @typedef {{ weight: number, language: string, given: string, family: string }} Circle */

/** @type {readonly Circle[]} */
const circles = [
	{
		weight: 27,
		language: 'es',
		given:
			'Marisol Ximena Rogelio Efraín Yesenia Leticia Octavio Ramiro Graciela Nayeli Adán Maricela Evaristo Paloma Ulises Itzel Fermín Baltazar Jacinto Araceli Eloísa Nicanor',
		family:
			'Quintanilla Peñaloza Arreguín Zamudio Olvera Barragán Núñez Escamilla Villaseñor Montaño Ybarra Saldívar Carrasco Bañuelos Lucero Treviño Zúñiga Cantú Magallón Tovar Espinal Bermejo'
	},
	{
		weight: 14,
		language: 'pl',
		given:
			'Danuta Zbigniew Halina Jolanta Tadeusz Ewelina Dariusz Urszula Kinga Leszek Renata Szymon Krystyna Róża Bogumil Felicja',
		family:
			'Wójcik Mazurek Dudek Pietrzak Sikora Gajda Kurek Bielak Urbaniak Czajka Sowa Zaremba Góral Wróbel Skóra Stasiak'
	},
	{
		weight: 26,
		language: 'en',
		given:
			'Latrice Darnell Terrence Keisha Monique Tyrell Ebony Shanice Reginald Lavonne Nadine Wendell Bernadette Darlene Roscoe Maxine Harriet Neville Lorraine Hollis Odessa Percival Winifred Alonzo',
		family:
			'Tolliver Pettway Crenshaw Dockery Whitlock Holloway Broadnax Lattimore Merriweather Fennell Quarles Ogletree Hargrove Spivey Tarver Upshaw Winfield Peebles Roundtree Dunaway Thackeray-Poole Bostick'
	},
	{
		weight: 9,
		language: 'en',
		given: 'Declan Aoife Fintan Siobhán Greta Anselm Jürgen Ingrid Søren Astrid Björn Maeve',
		family: "Farragher O'Dowd Kessler Brandl Löwe Hjelm Ødegård Tierney Scully Mac\u00a0Giolla Hüttner Sandvik"
	},
	{
		weight: 9,
		language: 'en',
		given: 'Anjali Harpreet Suresh Meenakshi Farhan Nusrat Gurdeep Lakshmi Kavita Ravindra Shabnam Prakash',
		family: 'Bhattarai Dhillon Mirza Naidu Patwardhan Randhawa Siddiqui Thapa Venkatesan Lamichhane Bajwa Kulkarni'
	},
	{
		weight: 7,
		language: 'en',
		given: 'Thuy Quang Linh Rodel Maricar Jomar Liwayway Somchai Wei-Lin Hyun-woo',
		family: 'Truong Dimaculangan Batungbakal Catacutan Saetang Hsu Kwak Bui Macaraeg Phan'
	},
	{
		weight: 5,
		language: 'en',
		given: 'Chidinma Olumide Tigist Fatoumata Kwabena Thandiwe Yohannes Babajide',
		family: 'Adeyinka Nwachukwu Tesfamariam Asante Mabaso Gebremedhin Olawale Sesay'
	},
	{
		weight: 3,
		language: 'en',
		given: 'Samira Dalia Leyla Emre Noor Khalid',
		family: 'Barakat Sabbagh Yildirim Rahmani Tarazi Dabbagh'
	}
];

/**
 * Draws names that are all different.
 * @param {import('./seeded.mjs').Seeded} random
 */
export function nameDrawer(random) {
	const taken = new Set();
	const total = circles.reduce((sum, circle) => sum + circle.weight, 0);
	return () => {
		for (;;) {
			const circle = drawCircle(random.whole(1, total));
			const given = random.pick(circle.given.split(' '));
			const family = random.pick(circle.family.split(' ')).replaceAll('\u00a0', ' ');
			const name = `${given} ${family}`;
			if (taken.has(name)) continue;
			taken.add(name);
			return { given, family, name, language: random.chance(0.65) ? circle.language : 'en' };
		}
	};
}

/**
 * @param {number} ticket from 1 to the sum of the weights
 * @returns {Circle}
 */
function drawCircle(ticket) {
	let left = ticket;
	for (const circle of circles) {
		left -= circle.weight;
		if (left <= 0) return circle;
	}
	throw new Error('a ticket beyond the sum of the weights');
}

/**
 * Letters for an e-mail address: no accents, no blanks, lower case.
 * @param {string} text
 */
export function plainLetters(text) {
	return text
		.normalize('NFD')
		.toLowerCase()
		.replaceAll('ø', 'o')
		.replace(/[^a-z-]/g, '');
}
