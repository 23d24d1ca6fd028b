export { Invitations, type NewInvitation } from './invitations.ts';
export { Memberships, type ListedMember } from './memberships.ts';
export { phoneDays, Phones, type ListedPhone } from './phones.ts';
export { ReadingLinks, type ListedLink, type NewLink } from './links.ts';
