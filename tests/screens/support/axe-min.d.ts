// The packed form of the axe rules has no types of its own: the same module, quicker to read in.
declare module "axe-core/axe.min.js" {
  export { default } from "axe-core";
}
