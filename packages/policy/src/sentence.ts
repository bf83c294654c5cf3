const verbs = /^(is|are|has|can’t|needs|names|would|stands|says|switches) /;
const openings =
  /^(the|a|an|there|no|its|two|nested|fixed|times|calendar|days|only|give|part|parts|facts|with|without|together|unknown|more) /;

/**
 * A message as a sentence: the element it is about is put before one that begins with its verb, and it ends with a
 * full stop.
 */
export function sentence(message: string, subject: string): string {
  let text = message.trim();
  if (verbs.test(text)) text = `${subject} ${text}`;
  else if (openings.test(text)) text = text.charAt(0).toUpperCase() + text.slice(1);
  return /[.?!]$/.test(text) ? text : `${text}.`;
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
