import { type AstNode, DefaultLinker, interruptAndCheck, isAstNode, isReference, type LangiumDocument } from 'langium';

type CancelToken = Parameters<typeof interruptAndCheck>[0];

/** After so many nodes whoever waits for something else is let through. */
const breath = 2000;

/** Langium's linker, which goes through a sheet in plain loops: a keystroke waits for this. */
export class SheetLinker extends DefaultLinker {
  override async link(document: LangiumDocument, cancelToken?: CancelToken): Promise<void> {
    const open: AstNode[] = [document.parseResult.value];
    let met = 0;
    for (let node = open.pop(); node !== undefined; node = open.pop()) {
      if (cancelToken !== undefined && ++met % breath === 0) await interruptAndCheck(cancelToken);
      this.#linkNode(node, open, document);
    }
  }

  /** Links what a node refers to itself, and puts the nodes in it to those that are `open`, so that the first comes next. */
  #linkNode(node: AstNode, open: AstNode[], document: LangiumDocument): void {
    const inner: AstNode[] = [];
    for (const [property, value] of Object.entries(node)) {
      if (property.startsWith('$')) continue;
      if (Array.isArray(value)) {
        for (const [index, one] of value.entries()) {
          if (isReference(one)) this.doLink({ reference: one, container: node, property, index }, document);
          else if (isAstNode(one)) inner.push(one);
        }
      } else if (isReference(value)) this.doLink({ reference: value, container: node, property }, document);
      else if (isAstNode(value)) inner.push(value);
    }
    for (let at = inner.length - 1; at >= 0; at -= 1) {
      const one = inner[at];
      if (one !== undefined) open.push(one);
    }
  }
}
