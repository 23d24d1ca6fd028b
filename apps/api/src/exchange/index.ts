export { Incoming } from './incoming.ts';
export { IncomingController } from './incoming.controller.ts';
export { Outgoing } from './outgoing.ts';
export { calendarQuery, fieldsQuery, OutgoingController } from './outgoing.controller.ts';
