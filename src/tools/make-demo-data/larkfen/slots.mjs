/**
 * Who works at Larkfen Cold Store: 240 places in 9 departments. A `tag` marks a place that another part of the demo
 * speaks of.
 * @typedef {object} Slot
 * @property {string} department
 * @property {string} job
 * @property {string | null} pattern
 * @property {string[]} workAreas
 * @property {string | null} wave
 * @property {number} worn share of people whose fingertips take longer
 * @property {string} [tag]
 */

/** @type {Slot[]} */
const list = [];

/**
 * @param {number} count
 * @param {Omit<Slot, 'job' | 'pattern'>} team
 * @param {string} job
 * @param {string | null} pattern
 * @param {Partial<Slot>} [special]
 */
function add(count, team, job, pattern, special = {}) {
	for (let number = 0; number < count; number++) list.push({ ...team, job, pattern, ...special });
}

const office = { department: 'Office', workAreas: ['offices'], wave: 'w1', worn: 0 };
add(1, office, 'Site manager', 'OFFICE', { tag: 'site-manager' });
add(2, office, 'Site administrator', 'OFFICE', { tag: 'admin' });
add(1, office, 'Site administrator', 'OFFICE', { tag: 'leaving-admin' });
add(4, office, 'Transport planner', 'OFFICE');
add(4, office, 'Customer service clerk', 'OFFICE');
add(1, office, 'Customer service clerk', 'OFFICE', { tag: 'on-leave' });
add(3, office, 'Payroll clerk', 'OFFICE');
add(2, office, 'Buyer', 'OFFICE');
add(1, office, 'Safety officer', 'OFFICE');
add(1, office, 'Trainer', 'OFFICE');

const picking = { department: 'Picking', workAreas: ['cold', 'dock'], wave: 'w2', worn: 0.1 };
add(2, picking, 'Picking lead', 'EARLY');
add(23, picking, 'Picker', 'EARLY');
add(1, picking, 'Picker', 'EARLY', { tag: 'joiner', wave: null });
add(1, picking, 'Picker', 'EARLY', { tag: 'declined' });
add(2, picking, 'Picking lead', 'LATE');
add(22, picking, 'Picker', 'LATE');
add(1, picking, 'Picker', 'LATE', { tag: 'declined' });

const dock = { department: 'Dock', workAreas: ['dock'], wave: 'w2', worn: 0.12 };
add(1, dock, 'Dock lead', 'EARLY');
add(2, dock, 'Dispatcher', 'EARLY');
add(15, dock, 'Loader', 'EARLY');
add(1, dock, 'Loader', 'NIGHT', { tag: 'moved-to-nights' });
add(1, dock, 'Dock lead', 'LATE');
add(1, dock, 'Dispatcher', 'LATE');
add(15, dock, 'Loader', 'LATE');

const packing = { department: 'Packing', workAreas: ['packing'], wave: 'w3', worn: 0.08 };
add(1, packing, 'Packing lead', 'SWAP-A');
add(18, packing, 'Packer', 'SWAP-A');
add(1, packing, 'Packer', 'SWAP-A', { tag: 'joiner', wave: null });
add(1, packing, 'Packing lead', 'SWAP-B');
add(18, packing, 'Packer', 'SWAP-B');
add(1, packing, 'Packer', 'SWAP-B', { tag: 'declined' });
add(3, packing, 'Quality technician', 'SAMPLE', { workAreas: ['packing', 'cold'] });
add(1, packing, 'Quality technician', 'EARLY', { workAreas: ['packing', 'cold'] });

const night = { department: 'Night crew', workAreas: ['dock', 'cold'], wave: 'w3', worn: 0.1 };
add(2, night, 'Night lead', 'NIGHT');
add(18, night, 'Night picker', 'NIGHT');
add(1, night, 'Night picker', 'NIGHT', { tag: 'quiet-night' });
add(1, night, 'Night picker', 'NIGHT', { tag: 'declined' });
add(13, night, 'Night loader', 'NIGHT');
add(1, night, 'Night loader', 'NIGHT', { tag: 'night-leaver' });

const refrigeration = { department: 'Refrigeration', workAreas: ['engine'], wave: 'w2', worn: 0.1 };
add(4, refrigeration, 'Refrigeration operator, days', '4ON-DAY-A');
add(4, refrigeration, 'Refrigeration operator, days', '4ON-DAY-B');
add(4, refrigeration, 'Refrigeration operator, nights', '4ON-NIGHT-A');
add(4, refrigeration, 'Refrigeration operator, nights', '4ON-NIGHT-B');

const maintenance = { department: 'Maintenance', workAreas: ['engine', 'packing'], wave: 'w1', worn: 0.25 };
add(1, maintenance, 'Maintenance lead', 'TRADES');
add(7, maintenance, 'Fitter', 'TRADES');
add(4, maintenance, 'Electrician', 'TRADES');

const cleaning = { department: 'Cleaning', workAreas: ['welfare', 'packing'], wave: 'w3', worn: 0.25 };
add(7, cleaning, 'Cleaner', 'EVENING');
add(3, cleaning, 'Deep cleaner', 'DEEP', { workAreas: ['welfare', 'cold'] });

const contractors = { department: 'Contractors', workAreas: ['offices', 'dock'], wave: 'w1', worn: 0 };
add(2, contractors, 'Guard', '4ON-DAY-A', { tag: 'guard' });
add(2, contractors, 'Guard', '4ON-DAY-B', { tag: 'guard' });
add(2, contractors, 'Guard', '4ON-NIGHT-A', { tag: 'guard' });
add(1, contractors, 'Guard', '4ON-NIGHT-B', { tag: 'guard' });
add(1, contractors, 'Guard', '4ON-NIGHT-B', { tag: 'withdrawing-guard' });
add(1, contractors, 'Guard', '4ON-DAY-A', { tag: 'former-guard' });
add(1, contractors, 'Guard', '4ON-NIGHT-A', { tag: 'held-guard' });
add(3, contractors, 'Sprinkler fitter', null, { workAreas: [], tag: 'sprinkler' });
add(1, contractors, 'Pest control technician', null, { workAreas: [], tag: 'pest-control' });

/** @type {readonly Slot[]} */
export const slots = list;
