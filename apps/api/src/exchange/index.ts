export { Outgoing } from './outgoing.ts';
export { calendarQuery, fieldsQuery, OutgoingController } from './outgoing.controller.ts';
