import { isSheetDocument, type Lowering, type QuarrelServices, SheetLinker } from '@quarrel/language';
import type { LangiumDocument } from 'langium';

/** Langium's linker; what was made of a sheet goes with the references it leaned on. */
export class ForgetfulLinker extends SheetLinker {
  readonly #lowering: () => Lowering;

  constructor(services: QuarrelServices) {
    super(services);
    this.#lowering = () => services.meaning.Lowering;
  }

  override unlink(document: LangiumDocument): void {
    if (isSheetDocument(document)) this.#lowering().forget(document);
    super.unlink(document);
  }
}
