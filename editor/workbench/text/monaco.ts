// The only door to the editor library: its core, the few features that a book needs,
// and its worker. The library's bare import would bring every language it knows.
import "monaco-editor/features/folding/register.js";
// The feature of that name brings inline suggestions only, so the list itself is named here.
import "monaco-editor/editor/contrib/suggest/browser/suggestController.js";
import "monaco-editor/features/wordOperations/register.js";
import * as monaco from "monaco-editor/editor/editor.api.js";
import EditorWorker from "monaco-editor/editor/editor.worker.js?worker";

self.MonacoEnvironment = { getWorker: () => new EditorWorker() };

export { monaco };
export type CodeEditor = monaco.editor.IStandaloneCodeEditor;
export type TextModel = monaco.editor.ITextModel;
export type Decoration = monaco.editor.IModelDeltaDecoration;
