import { declaredIn, isSheetDocument, nodesReferredIn, resolveUse, type SheetDocument } from '@quarrel/language';
import {
  type AstNode,
  type AstNodeDescription,
  AstUtils,
  CstUtils,
  type IndexManager,
  type LangiumDocument,
  type LangiumDocuments,
  type LangiumSharedCoreServices,
  type Reference,
  type ReferenceDescription,
  type ServiceRegistry,
  type Stream,
  stream,
  URI,
  UriUtils,
} from 'langium';

/**
 * Which sheet uses which, and refers to what in it. Nothing is written down as sheets are built, since every keystroke builds
 * one: what is asked is looked up in the sheets, and kept for as long as they stay as they are.
 */
export class SheetIndex implements IndexManager {
  readonly #documents: LangiumDocuments;
  readonly #registry: ServiceRegistry;
  /** By what has been parsed of a sheet: the addresses it uses itself. */
  readonly #used = new WeakMap<AstNode, readonly string[]>();
  /** By the references of a linked sheet: what they refer to. */
  readonly #referred = new WeakMap<readonly unknown[], ReadonlySet<AstNode>>();

  constructor(services: LangiumSharedCoreServices) {
    this.#documents = services.workspace.LangiumDocuments;
    this.#registry = services.ServiceRegistry;
  }

  remove(): void {}

  removeContent(): void {}

  removeReferences(): void {}

  async updateContent(): Promise<void> {}

  async updateReferences(): Promise<void> {}

  /** Whether a sheet uses one of the others, itself or through others. */
  isAffected(document: LangiumDocument, changedUris: Set<string>): boolean {
    for (const uri of this.usedFrom(document)) if (changedUris.has(uri)) return true;
    return false;
  }

  /** The addresses of everything that a sheet uses, itself or through others, whether or not it is there. */
  usedFrom(document: LangiumDocument): ReadonlySet<string> {
    const met = new Set(this.#usedBy(document));
    // `met` grows while it is walked.
    for (const uri of met) {
      const used = this.#documents.getDocument(URI.parse(uri));
      if (used !== undefined) for (const next of this.#usedBy(used)) met.add(next);
    }
    return met;
  }

  /** The sheets that use one, themselves or through others, and the sheet itself. */
  usersOf(document: SheetDocument): readonly SheetDocument[] {
    const uri = document.uri.toString();
    return this.#documents.all
      .filter(isSheetDocument)
      .filter((one) => one === document || this.usedFrom(one).has(uri))
      .toArray();
  }

  /** Everything that a sheet refers to, in itself and in others. */
  referredIn(document: SheetDocument): ReadonlySet<AstNode> {
    const known = this.#referred.get(document.references);
    if (known !== undefined) return known;
    const referred = new Set(nodesReferredIn(document));
    this.#referred.set(document.references, referred);
    return referred;
  }

  allElements(nodeType?: string, uris?: Set<string>): Stream<AstNodeDescription> {
    const documents = this.#documents.all
      .filter(isSheetDocument)
      .filter((document) => uris === undefined || uris.has(document.uri.toString()));
    return stream(
      documents.flatMap((document) => {
        const { AstNodeDescriptionProvider } = this.#registry.getServices(document.uri).workspace;
        return stream(declaredIn(document.parseResult.value)).flatMap(({ node }) =>
          node.name === undefined || (nodeType !== undefined && node.$type !== nodeType)
            ? []
            : [AstNodeDescriptionProvider.createDescription(node, node.name, document)],
        );
      }),
    );
  }

  findAllReferences(targetNode: AstNode, astNodePath: string): Stream<ReferenceDescription> {
    const target = AstUtils.getDocument(targetNode);
    if (!isSheetDocument(target)) return stream([]);
    return stream(this.usersOf(target))
      .filter((document) => this.referredIn(document).has(targetNode))
      .flatMap((document) => document.references)
      .filter((reference): reference is Reference => 'ref' in reference && reference.ref === targetNode)
      .flatMap((reference) => this.#described(reference, target, astNodePath));
  }

  #described(reference: Reference, target: SheetDocument, targetPath: string): readonly ReferenceDescription[] {
    const { $refNode } = reference;
    if ($refNode === undefined) return [];
    const source = AstUtils.getDocument($refNode.astNode);
    return [
      {
        sourceUri: source.uri,
        sourcePath: this.#registry.getServices(source.uri).workspace.AstNodeLocator.getAstNodePath($refNode.astNode),
        targetUri: target.uri,
        targetPath,
        segment: CstUtils.toDocumentSegment($refNode),
        local: UriUtils.equals(source.uri, target.uri),
      },
    ];
  }

  #usedBy(document: LangiumDocument): readonly string[] {
    if (!isSheetDocument(document)) return [];
    const root = document.parseResult.value;
    const known = this.#used.get(root);
    if (known !== undefined) return known;
    const used = root.uses.flatMap(({ path }) => {
      if (path === undefined) return [];
      const resolved = resolveUse(path, document.uri.toString());
      return resolved.kind === 'refused' ? [] : [URI.parse(resolved.uri).toString()];
    });
    this.#used.set(root, used);
    return used;
  }
}
