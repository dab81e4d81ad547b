import { z } from 'zod';
import type { LocalDate } from '../calendar/local-date';
import { refused, ok } from '../kernel/result';
import { type PersonRecord, personRecord } from '../privacy/person-record';
import { recordText } from '../privacy/record-text';
import { defineAnswer } from './define-answer';
import { dateParam, personId, unknownId } from './support/params';

const params = z.strictObject({
	person: personId,
	on: dateParam.describe('The day for which dates and states are reckoned')
});

export default defineAnswer<{ person: string; on: LocalDate }, PersonRecord>({
	name: 'person-record',
	summary: 'Everything held on one person, with nothing of anyone else: the answer to a request for access.',
	params,
	run(rollout, { person, on }) {
		const record = personRecord(rollout, person, on);
		return Promise.resolve(record ? ok(record) : refused(unknownId('person', person, 'a person', rollout.people)));
	},
	isBad: () => false,
	text: recordText
});
