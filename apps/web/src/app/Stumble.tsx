import { Component, type ReactNode } from 'react';
import { settings } from '../session/settings.ts';
import { shell } from '../words/shell.ts';

/** Shows what to do when a page could not be drawn. What was recorded is not touched by it. */
export class Stumble extends Component<{ readonly children: ReactNode }, { readonly broke: boolean }> {
  override state = { broke: false };

  static getDerivedStateFromError(): { broke: boolean } {
    return { broke: true };
  }

  override render(): ReactNode {
    if (!this.state.broke) return this.props.children;
    const w = shell[settings.get().language];
    return (
      <section className="page" role="alert">
        <h1>{w.brokeTitle}</h1>
        <p>{w.brokeDo}</p>
        <button type="button" className="button" onClick={() => location.reload()}>
          {w.loadAgain}
        </button>
      </section>
    );
  }
}
