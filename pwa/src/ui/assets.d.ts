// The bundler turns these into files of their own.
declare module "*.css";
