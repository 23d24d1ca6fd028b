import { Roles1764000000001 } from './0001-roles.ts';
import { Access1764000000002 } from './0002-access.ts';
import { Log1764000000003 } from './0003-log.ts';
import { PersonalValues1764000000004 } from './0004-personal-values.ts';
import { Mentions1764000000005 } from './0005-mentions.ts';
import { Views1764000000006 } from './0006-views.ts';
import { SignIn1764000000007 } from './0007-sign-in.ts';
import { ReadingLinks1764000000008 } from './0008-reading-links.ts';
import { SignaturesAndDocuments1764000000009 } from './0009-signatures-and-documents.ts';
import { Scheduler1764000000010 } from './0010-scheduler.ts';
import { Checkpoints1764000000011 } from './0011-checkpoints.ts';
import { Deadlines1764000000012 } from './0012-deadlines.ts';
import { Alerts1764000000013 } from './0013-alerts.ts';
import { Unfollowed1764000000014 } from './0014-unfollowed.ts';
import { ReportJobs1764000000015 } from './0015-report-jobs.ts';
import { EndedAccess1764000000016 } from './0016-ended-access.ts';
import { RuleUpgrades1764000000017 } from './0017-rule-upgrades.ts';
import { ForgottenAttempts1764000000018 } from './0018-forgotten-attempts.ts';

/** Every migration ever released, oldest first. A released one never changes; the schema goes forward only. */
export const migrations = [
  Roles1764000000001,
  Access1764000000002,
  Log1764000000003,
  PersonalValues1764000000004,
  Mentions1764000000005,
  Views1764000000006,
  SignIn1764000000007,
  ReadingLinks1764000000008,
  SignaturesAndDocuments1764000000009,
  Scheduler1764000000010,
  Checkpoints1764000000011,
  Deadlines1764000000012,
  Alerts1764000000013,
  Unfollowed1764000000014,
  ReportJobs1764000000015,
  EndedAccess1764000000016,
  RuleUpgrades1764000000017,
  ForgottenAttempts1764000000018,
] as const;
