import { Component, type ReactNode } from 'react';
import { troubleOf } from '../../core/errors.ts';

interface Props {
  readonly name: string;
  readonly children: ReactNode;
}

/**
 * A view that fails takes only itself down: the bar with output off stays, and main goes on
 * recording. React offers this to classes alone.
 */
export class ViewGuard extends Component<Props, { readonly thrown: unknown }> {
  override state = { thrown: null as unknown };

  static getDerivedStateFromError(thrown: unknown) {
    return { thrown };
  }

  override render(): ReactNode {
    const { thrown } = this.state;
    if (thrown === null) return this.props.children;
    const trouble = troubleOf(thrown, this.props.name);
    return (
      <main className="view-failed" role="alert">
        <h1>This view stopped: {trouble.what}</h1>
        <p>
          The bench goes on recording, and F9 still switches the output off. Draw the view again, or
          go to another one.
        </p>
        <button
          type="button"
          className="plain strong"
          onClick={() => this.setState({ thrown: null })}
        >
          Draw it again
        </button>
      </main>
    );
  }
}
