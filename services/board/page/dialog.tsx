import type { ComponentChildren } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { words } from './words/english.js';

/** A dialog of the browser’s own: it keeps the focus inside, closes with Escape and gives the focus back. */
export function Dialog({
  title,
  onClose,
  children,
}: {
  title: string;
  onClose: () => void;
  children: ComponentChildren;
}) {
  const own = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    const before = document.activeElement;
    own.current?.showModal();
    return () => {
      if (before instanceof HTMLElement) before.focus();
    };
  }, []);
  return (
    <dialog ref={own} aria-labelledby="dialog-title" onClose={onClose}>
      <div class="dialog-head">
        <h2 id="dialog-title">{title}</h2>
        <button type="button" onClick={onClose}>
          {words.close}
        </button>
      </div>
      {children}
    </dialog>
  );
}
