/** Names that every JavaScript object answers to; as a name of the author's they would hide or be hidden. */
export function isReserved(name: string): boolean {
  return name in Object.prototype || name === 'prototype'
}
