/**
 * A message as a sentence: `{element}` stands for the element that it is about, and it ends with a full stop.
 */
export function sentence(message: string, element: string): string {
  const text = message.trim().replaceAll('{element}', element);
  return ['.', '?', '!'].some((end) => text.endsWith(end)) ? text : `${text}.`;
}

/** The same with a capital letter at its beginning. */
export function capitalised(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** The last element that a path names, without its index. */
export function lastStep(path: string): string {
  return (
    path
      .replace(/\[\d+\]$/, '')
      .split('.')
      .pop() ?? path
  );
}
