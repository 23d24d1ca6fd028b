import '@nestjs/common';

// CommonJS that asks for Nest, which is not: so it is loaded once Nest is there.
const { ThrottlerGuard, ThrottlerModule } = await import('@nestjs/throttler');

/** Sign-ins, PINs and invitations from one address in a minute. What members send is not counted. */
const most = 30;

/** Holds back who tries secrets one after the other from one address; the waits after wrong ones hold back the rest. */
export const Throttle = ThrottlerGuard;

export const throttling = ThrottlerModule.forRoot([{ ttl: 60_000, limit: most }]);
