import type { Template } from '../../forms/template.ts';
import type { JobFile } from '../../jobfile/job-file.ts';
import { cutBy, type Shop } from '../../model/shop.ts';

/** A job file that was read, with everything needed to make it. */
export interface ReadyJob {
  readonly job: JobFile;
  readonly families: ReadonlyMap<string, Template>;
  readonly shop: Shop;
}

/** The shop as a job sees it, whose parts are all cut with one cutter where `defaults` name it. */
export const shopOfJob = ({ parts }: Pick<JobFile, 'parts'>, shop: Shop): Shop =>
  cutBy(shop, parts[0]?.way.cutWith);

/** The family of a part. The file was read by these families, so it is always there. */
export const templateOf = ({ families }: ReadyJob, family: string): Template => {
  const template = families.get(family);
  if (template === undefined) throw new Error(`no family ${family}`);
  return template;
};
