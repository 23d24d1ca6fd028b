/** Asks the browser not to throw the device's records away when space gets short. */
export async function keepForGood(): Promise<void> {
  if (!(await navigator.storage?.persisted?.())) await navigator.storage?.persist?.();
}
