/** Folder with one folder a kit. */
export const expectedFolder: string
/** `guide.txt` gives `guide.changed.txt`, which git ignores. */
export function changedName(path: string): string
/** True for names that `changedName` gives. */
export function isChangedName(name: string): boolean
