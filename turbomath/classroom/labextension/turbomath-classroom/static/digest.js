export const canCheck = Boolean(globalThis.crypto?.subtle); // browsers have it by https and on this machine alone

/* The same digest as digests.py: SHA-256 of the SHA-256 of each code cell. */
export async function digest(sources) {
  const each = await Promise.all(sources.map(sha256));
  return sha256(each.join(""));
}

async function sha256(text) {
  const bytes = new Uint8Array(await crypto.subtle.digest("SHA-256", new TextEncoder().encode(text)));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
}
