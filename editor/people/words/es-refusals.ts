// What the host refuses on the sign-in and people pages, in Spanish, by the code of the refusal.
import { type RefusalWords, waitIn } from "../../../core/schemas/refusal.ts";
import { esPeople } from "./es-people.ts";

const nothingLost = "no se ha guardado nada de esto. Lo guardado antes está a salvo.";

export const esRefusals: RefusalWords = {
  "sign-in-wrong": "El nombre o la contraseña no son correctos.",
  "sign-in-busy": "Demasiadas personas entran en este momento. Inténtelo dentro de unos segundos.",
  "sign-in-wait": ({ seconds }) => {
    const { count, unit } = waitIn(seconds);
    const units = unit === "minutes" ? "minutos" : "segundos";
    return `Han fallado demasiados intentos. Espere ${count} ${units} e inténtelo otra vez.`;
  },
  "sign-in-not-asked": esPeople["sign.not-asked"],
  "password-wrong": "La contraseña actual no es correcta.",
  "password-short": ({ least }) =>
    `Una contraseña tiene al menos ${least} caracteres. Varias palabras seguidas se recuerdan bien.`,
  "password-long": ({ most }) => `Una contraseña tiene como mucho ${most} caracteres.`,
  "password-common":
    "Esta contraseña es de las primeras que se prueban. Elija otra; varias palabras seguidas se " +
    "recuerdan bien.",
  "password-of-nobody": "El propio puesto del taller no tiene contraseña.",
  "invitation-over": "Esta invitación ya se usó o su tiempo ha terminado. Pida otra a un responsable.",
  "invitation-over-no-lead":
    "Esta invitación ya se usó o su tiempo ha terminado. Aún no hay ningún responsable: inicie otra " +
    "vez el servidor y mostrará otra.",
  "invitation-unknown": "Esa invitación ya no existe.",
  "name-missing": "Diga el nombre con el que le conocen en el taller.",
  "name-taken": "Este nombre ya está en uso o lo estuvo. Elija otro.",
  "name-mixed": "Escriba su nombre con las letras de un solo alfabeto.",
  "person-unknown": "Esa persona no existe.",
  "last-lead": "Es el último responsable. Haga antes responsable a otra persona.",
  "not-signed-in": "El servidor no sabe quién es usted. Entre con su nombre.",
  "role-too-low": ({ name, role, needed }) =>
    `Para esto hace falta ser ${esPeople[`role.${needed}`]}; ${name} es ${esPeople[`role.${role}`]}.`,
  "other-origin": "Una página de otro lugar no puede escribir aquí.",
  "disk-full": `El disco está lleno: ${nothingLost} Libere espacio y hágalo otra vez.`,
  "disk-error": `El disco no aceptó lo que había que escribir: ${nothingLost} Mire si está lleno o falla.`,
  "data-read-only": `No se puede escribir en la carpeta de datos: ${nothingLost}`,
  "data-busy":
    "Otro programa escribe ahora en los datos del taller: no se ha guardado nada de esto. Hágalo otra" +
    " vez dentro de un momento.",
  "data-damaged": "El archivo de datos está dañado. Recupere la última copia con bevelbook restore.",
  "database-unreachable":
    "El servidor de la base de datos no responde como debe: no se ha guardado nada de esto.",
  "too-large": "Esto es demasiado grande.",
  "not-understood": "El servidor no entiende lo que se ha enviado.",
  "host-fault": "El servidor cometió un error con esto. No se ha guardado nada.",
};
