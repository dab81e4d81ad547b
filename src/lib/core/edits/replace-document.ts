import { entry } from '../document/fields';
import type { RolloutDocument } from '../document/schema';
import { ok } from '../kernel/result';
import { defineEdit } from './define-edit';
import { objectParam } from './support/params';

/** Puts another state of the whole document in place of this one, as when a file is imported over a rollout. */
export default defineEdit({
	name: 'replace-document',
	summary: 'Puts a whole document in place of this one. Entries that are the same stay untouched.',
	params: entry({ document: objectParam.describe('The rollout document') }),
	apply: (_, { document }) => ok(document as RolloutDocument),
	placed: () => [{ param: ['document'], at: [] }],
	describe: () => 'Document imported over this rollout',
	remember: () => ({})
});
