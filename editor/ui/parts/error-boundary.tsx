// A fault in one part of the page is said in its place; the rest of the page goes on.
import { Component } from "react";
import type { ReactNode } from "react";

/**
 * Draws its children; after a fault, a sentence and a way to try again. A new `about` tries again by itself.
 */
export class Safely extends Component<
  { readonly what: string; readonly about: unknown; readonly children: ReactNode },
  { readonly failed: boolean; readonly about: unknown }
> {
  override state = { failed: false, about: this.props.about };

  static getDerivedStateFromError(): { failed: true } {
    return { failed: true };
  }

  static getDerivedStateFromProps(
    props: { readonly about: unknown },
    state: { readonly failed: boolean; readonly about: unknown },
  ): { failed: boolean; about: unknown } | null {
    return props.about === state.about ? null : { failed: false, about: props.about };
  }

  override render(): ReactNode {
    if (!this.state.failed) return this.props.children;
    return (
      <div className="failed" role="alert">
        <p>{this.props.what} could not be drawn. Your work is kept.</p>
        <button type="button" className="button" onClick={() => this.setState({ failed: false })}>
          Try again
        </button>
      </div>
    );
  }
}
