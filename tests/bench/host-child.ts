// The host of the bench, in a process of its own: opens in the place that it is given and prints its address.
import { openHost } from "../../editor/host/host.ts";

const [data, database] = process.argv.slice(2);
const host = await openHost(
  data!,
  { host: "127.0.0.1", port: 0 },
  { data: data!, proofSeconds: 10, ...(database ? { database } : {}) },
);
if ("failed" in host) {
  console.error(host.failed);
  process.exit(1);
}
console.log(host.address);
process.on("SIGTERM", () => {
  void host.close().then(() => process.exit(0));
});
