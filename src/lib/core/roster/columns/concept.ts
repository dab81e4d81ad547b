import type { ColumnField } from '../fields';

/**
 * What a header can mean. Beside the fields: a name that is the whole name, or only a part where another column holds the
 * other part (`Name` beside `Vorname`); a whole name with the family name first; and `other`, something that a roster
 * often has and a rollout does not need; `goods`, something that no list of people has.
 */
export type Concept = ColumnField | 'nameOrFamily' | 'nameOrGiven' | 'familyFirst' | 'other' | 'goods';

/**
 * The words of one language for each concept, separated by commas. `~` before a word: it may mean this, and often means
 * something else.
 */
export type Words = Readonly<Partial<Record<Concept, string>>>;
