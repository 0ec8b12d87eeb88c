/** Id of the example job. Ids of real jobs are hexadecimal, so none can be this one. */
export const EXAMPLE_JOB = 'example-shower-27';
