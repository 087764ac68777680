// What the pages may load and do. Scripts, workers, fonts and pictures come from this host alone, and no text
// is run as a script.

/**
 * The content policy of every page, as one header value. Styles may be set from script: the text face's
 * editor does so.
 */
const contentPolicy = [
  "default-src 'self'",
  "script-src 'self'",
  "worker-src 'self'",
  "manifest-src 'self'",
  "style-src 'self' 'unsafe-inline'",
  "font-src 'self' data:",
  "img-src 'self' data:",
  "connect-src 'self'",
  "object-src 'none'",
  "base-uri 'none'",
  // The forms of the pages are sent by script; one that is not goes nowhere else.
  "form-action 'self'",
  "frame-ancestors 'none'",
].join("; ");

export const safetyHeaders: Readonly<Record<string, string>> = {
  "Content-Security-Policy": contentPolicy,
  "X-Content-Type-Options": "nosniff",
  "Referrer-Policy": "no-referrer",
  "Cross-Origin-Opener-Policy": "same-origin",
  "Cross-Origin-Resource-Policy": "same-origin",
  "X-Frame-Options": "DENY",
  "Permissions-Policy": "camera=(self), microphone=(), geolocation=(), payment=(), usb=()",
};

/** Over an encrypted line: the browser comes by no other for a year. */
export const strictTransport = ["Strict-Transport-Security", "max-age=31536000"] as const;
