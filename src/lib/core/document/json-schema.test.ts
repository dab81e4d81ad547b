import { expect, test } from 'vitest';
import { collections } from './collections';
import { documentJsonSchema } from './json-schema';
import { collectionNames } from './lists';
import { fieldOf } from './walk';

/** A part of the schema by the keys of the document; what may be null is looked into. */
function at(path: string): unknown {
	return path.split('.').reduce<unknown>((schema, key) => {
		const properties = fieldOf(bare(schema), 'properties');
		return bare(fieldOf(properties, key));
	}, documentJsonSchema());
}

function bare(schema: unknown): unknown {
	const options = fieldOf(schema, 'anyOf');
	return Array.isArray(options) ? options.find((one: unknown) => fieldOf(one, 'type') !== 'null') : schema;
}

/** The keys that must be there, by what they stand in: the paragraph "Required" of the document format. */
const required: Readonly<Record<string, readonly string[]>> = {
	areas: ['id'],
	doors: ['id', 'from', 'to'],
	doorGroups: ['id'],
	controllers: ['id'],
	readers: ['id', 'door'],
	schedules: ['id'],
	holidays: ['date', 'kind'],
	people: ['id'],
	shiftPatterns: ['id', 'anchor', 'cycleDays'],
	absences: ['person'],
	accessProfiles: ['id'],
	assignments: ['id', 'who', 'accessProfile'],
	waves: ['id'],
	captureClasses: ['id', 'minutes'],
	stations: ['id', 'area'],
	walks: ['between'],
	awayLimits: ['department'],
	bookings: ['person', 'station', 'start', 'minutes'],
	visits: ['person', 'on', 'outcome'],
	notices: ['id'],
	consents: ['person', 'notice', 'decision', 'on'],
	templates: ['person', 'enrolledOn', 'storedOn'],
	holds: ['person'],
	templatePlaces: ['id'],
	erasureOrders: ['id', 'person', 'enrolledOn', 'openedOn'],
	requests: ['id', 'person', 'kind', 'receivedOn']
};

test('names the keys that must be there, and no other', () => {
	const schema = documentJsonSchema();
	expect(schema).toMatchObject({
		$schema: 'https://json-schema.org/draft/2020-12/schema',
		required: ['format', 'version', 'site', 'horizon'],
		additionalProperties: false
	});
	expect(at('site')).toMatchObject({ required: ['name', 'timeZone'], additionalProperties: false });
	for (const name of collectionNames) {
		const list = at(collections[name].path);
		expect(list, name).toMatchObject({ type: 'array', items: { type: 'object', additionalProperties: false } });
		expect(fieldOf(fieldOf(list, 'items'), 'required'), name).toEqual(required[name]);
	}
});

test('lets whatever may be left out also be null', () => {
	const { properties, required: needed } = documentJsonSchema() as {
		properties: Record<string, unknown>;
		required: string[];
	};
	for (const [key, schema] of Object.entries(properties)) {
		expect(JSON.stringify(schema).includes('"null"'), key).toBe(!needed.includes(key) || key === 'site');
	}
});

test('says what dates and stretches look like', () => {
	expect(at('horizon.from')).toMatchObject({ type: 'string', format: 'date' });
	const shifts = fieldOf(fieldOf(at('shiftPatterns'), 'items'), 'properties');
	const shift = fieldOf(fieldOf(bare(fieldOf(shifts, 'shifts')), 'items'), 'properties');
	expect(fieldOf(fieldOf(shift, 'at'), 'examples')).toContain('22:00-06:00');
});
