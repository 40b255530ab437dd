import { reportFailure } from "./report-failure.ts";
import { unpack } from "./unpack.ts";

/** The one script that stands in the page as it is: unpacks the others and starts them. */
async function load(): Promise<void> {
  const text = await unpack("page-code");
  const script = document.createElement("script");
  script.src = URL.createObjectURL(new Blob([text], { type: "text/javascript" }));
  document.head.append(script);
}

load().catch(reportFailure);
