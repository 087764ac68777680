// What the host refuses on the sign-in and people pages, in Spanish. The host says it in English; each
// sentence is known by its form.
import { esPeople } from "./es-people.ts";

type Form = readonly [english: RegExp, spanish: string | ((found: readonly string[]) => string)];

const role = (english: string): string =>
  english === "lead" || english === "technician" || english === "viewer"
    ? esPeople[`role.${english}`]
    : english;
const nothingLost = "no se ha guardado nada de esto. Lo guardado antes está a salvo.";

const forms: readonly Form[] = [
  [/^The name or the password is not right\.$/, "El nombre o la contraseña no son correctos."],
  [/^The present password is not right\.$/, "La contraseña actual no es correcta."],
  [
    /^This invitation was used, or its time is over\. Ask a lead for another\.$/,
    "Esta invitación ya se usó o su tiempo ha terminado. Pida otra a un responsable.",
  ],
  [
    /^This invitation was used, or its time is over\. There is no lead yet/,
    "Esta invitación ya se usó o su tiempo ha terminado. Aún no hay ningún responsable: inicie otra " +
      "vez el servidor y mostrará otra.",
  ],
  [
    /^Say the name by which you are known in the shop\.$/,
    "Diga el nombre con el que le conocen en el taller.",
  ],
  [/^This name is taken\. Take another\.$/, "Este nombre ya está en uso. Elija otro."],
  [/^There is no such invitation any more\.$/, "Esa invitación ya no existe."],
  [/^There is no such person\.$/, "Esa persona no existe."],
  [
    /^This is the last lead\. Make someone else a lead first\.$/,
    "Es el último responsable. Haga antes responsable a otra persona.",
  ],
  [
    /^A password has at least (\d+) characters\./,
    ([count]) =>
      `Una contraseña tiene al menos ${count} caracteres. Varias palabras seguidas se recuerdan bien.`,
  ],
  [
    /^A password has at most (\d+) characters\.$/,
    ([count]) => `Una contraseña tiene como mucho ${count} caracteres.`,
  ],
  [
    /^This password is among the first that are tried\./,
    "Esta contraseña es de las primeras que se prueban. Elija otra; varias palabras seguidas se " +
      "recuerdan bien.",
  ],
  [
    /^Too many are signing in at this moment\./,
    "Demasiadas personas entran en este momento. Inténtelo dentro de unos segundos.",
  ],
  [
    /^Too many tries have failed\. Wait (\d+) (minutes|seconds) and try again\.$/,
    ([count, unit]) =>
      `Han fallado demasiados intentos. Espere ${count} ${unit === "minutes" ? "minutos" : "segundos"} e inténtelo otra vez.`,
  ],
  [/^Nobody signs in here: the host serves its own machine only\.$/, esPeople["sign.not-asked"]],
  [/^The shop's own desk has no password\.$/, "El propio puesto del taller no tiene contraseña."],
  [/^The host does not know who you are\./, "El servidor no sabe quién es usted. Entre con su nombre."],
  [
    /^This needs an? (\S+); (.+) is an? (\S+)\.$/,
    ([needed, name, has]) => `Para esto hace falta ser ${role(needed!)}; ${name} es ${role(has!)}.`,
  ],
  [/^A page of another place may not write here\.$/, "Una página de otro lugar no puede escribir aquí."],
  [/^The disk is full/, `El disco está lleno: ${nothingLost} Libere espacio y hágalo otra vez.`],
  [/^The data folder cannot be written/, `No se puede escribir en la carpeta de datos: ${nothingLost}`],
  [
    /^Another program is writing to the shop's data/,
    "Otro programa escribe ahora en los datos del taller: no se ha guardado nada de esto. Hágalo otra" +
      " vez dentro de un momento.",
  ],
  [
    /^The data file is damaged\./,
    "El archivo de datos está dañado. Recupere la última copia con bevelbook restore.",
  ],
  [
    /^The disk did not take what was to be written/,
    `El disco no aceptó lo que había que escribir: ${nothingLost} Mire si está lleno o falla.`,
  ],
  [
    /^The database server does not answer as it should/,
    "El servidor de la base de datos no responde como debe: no se ha guardado nada de esto.",
  ],
  [/^This is too large/, "Esto es demasiado grande."],
  [/^This cannot be understood/, "El servidor no entiende lo que se ha enviado."],
  [/^The host made a mistake with this\./, "El servidor cometió un error con esto. No se ha guardado nada."],
];

/** The refusal in Spanish; as it came where its form is not known. */
export function refusalInSpanish(says: string): string {
  for (const [english, spanish] of forms) {
    const found = english.exec(says);
    if (found !== null) return typeof spanish === "string" ? spanish : spanish(found.slice(1));
  }
  return says;
}
