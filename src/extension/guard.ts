import * as vscode from "vscode";

/** An answer meant for the person: it goes through a guard to the editor, which shows its message. */
export class Refusal extends Error {}

/**
 * Stands between the editor and us: a bug in one entry is logged in the output channel *Copperbook* and harms nothing
 * else, since the editor gets an empty answer in its place.
 */
export class Guard implements vscode.Disposable {
  private readonly log = vscode.window.createOutputChannel("Copperbook", { log: true });

  dispose(): void {
    this.log.dispose();
  }

  /** The action, made safe. `otherwise` is its answer after a bug. */
  wrap<A extends unknown[], R>(
    what: string,
    otherwise: Awaited<NoInfer<R>>,
    action: (...given: A) => R,
  ): (...given: A) => R {
    return (...given) => this.run(what, otherwise, () => action(...given));
  }

  /** Does it now; see {@link wrap}. */
  run<R>(what: string, otherwise: Awaited<NoInfer<R>>, action: () => R): R {
    try {
      const result = action();
      if (!(result instanceof Promise)) return result;
      return result.catch((error: unknown) => this.report(what, otherwise, error)) as R;
    } catch (error) {
      return this.report(what, otherwise, error);
    }
  }

  /** Logs a bug that its discoverer can live with. */
  bug(what: string, error: unknown): void {
    this.log.error(`${what}: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`);
  }

  private report<T>(what: string, otherwise: T, error: unknown): T {
    if (error instanceof Refusal) throw error;
    this.bug(what, error);
    return otherwise;
  }
}
